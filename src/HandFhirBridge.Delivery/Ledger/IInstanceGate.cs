namespace HandFhirBridge.Delivery.Ledger;

/// <summary>Lets one instance in at a time, among all that share a ledger.</summary>
public interface IInstanceGate
{
    /// <summary>Waits for the turn; it ends when what is returned is disposed of, or when the process ends.</summary>
    /// <param name="name">Tells gates apart.</param>
    /// <param name="cancellation">Gives up waiting.</param>
    /// <exception cref="LedgerException">The store cannot be reached.</exception>
    Task<IAsyncDisposable> EnterAsync(string name, CancellationToken cancellation);
}
