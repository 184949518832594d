using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Service.Settings;

/// <summary>Wrong settings of the ledger, one sentence for each.</summary>
internal static class LedgerCheck
{
    public static IEnumerable<string> Find(BridgeSettings settings)
    {
        var ledger = settings.Ledger;
        if (!Enum.IsDefined(ledger.Store))
        {
            yield return $"Ledger:Store is {ledger.Store}. Write sqlite or postgresql.";
        }

        if (ledger.LeaseMinutes is < 1 or > 60)
        {
            yield return $"Ledger:LeaseMinutes is {ledger.LeaseMinutes}. Write 1 to 60.";
        }

        foreach (var fault in ledger.IsShared ? Shared(settings) : Alone(ledger))
        {
            yield return fault;
        }
    }

    private static IEnumerable<string> Alone(LedgerSettings ledger)
    {
        if (ledger.ConnectionString is not null)
        {
            yield return "Ledger:ConnectionString is set, and Ledger:Store is sqlite, which has none. Write postgresql as the store, or remove the connection string.";
        }
    }

    private static IEnumerable<string> Shared(BridgeSettings settings)
    {
        var ledger = settings.Ledger;
        if (ledger.ConnectionString is not { Length: > 0 } reference)
        {
            yield return "Ledger:ConnectionString is missing. Write env:NAME or file:PATH: the variable or file that holds the connection string of PostgreSQL.";
        }
        else if (LedgerStores.Fault(reference) is { } fault)
        {
            yield return fault;
        }

        if (string.IsNullOrWhiteSpace(ledger.KeysDirectory))
        {
            yield return "Ledger:KeysDirectory is missing. Write a folder that all instances share: what one of them seals, the others must open.";
        }

        if (settings.Target.BaseUrl is null)
        {
            yield return "Target:BaseUrl is missing. The embedded record belongs to one process; instances that share a ledger deliver to a FHIR server.";
        }
    }
}
