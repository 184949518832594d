namespace HandFhirBridge.Delivery.Ledger.Sql;

/// <summary>A database that keeps what it commits. What stands in the way is thrown as <see cref="LedgerException"/>.</summary>
internal interface ISqlStore : IDisposable
{
    /// <summary>Reads.</summary>
    Task<T> ReadAsync<T>(Func<SqlScope, Task<T>> read, CancellationToken cancellation);

    /// <summary>Writes in one transaction, which has reached the disk when this returns. <paramref name="write"/> may be run anew after a lost race.</summary>
    Task<T> WriteAsync<T>(Func<SqlScope, Task<T>> write, CancellationToken cancellation);
}
