namespace HandFhirBridge.Delivery.Ledger.Sql;

/// <summary>Where the two stores must be spoken to differently. All other statements are the same for both.</summary>
internal abstract class SqlDialect
{
    /// <summary>Ends a SELECT that takes rows of table s for change and passes over those another writer has.</summary>
    public abstract string Claim { get; }

    /// <summary>Ends a SELECT that takes rows of table s for change and waits for those another writer has.</summary>
    public abstract string Lock { get; }

    /// <summary>A condition: the column holds none of the values of a list.</summary>
    public abstract string NotAmong(string column, string parameter);

    /// <summary>Keeps every other writer away from these sessions, in all their revisions, until the transaction ends.</summary>
    public abstract Task LockSessionsAsync(SqlScope scope, IEnumerable<SessionKey> keys);
}
