using HandFhirBridge.Delivery.Authorization;
using HandFhirBridge.Delivery.Dispatch;
using HandFhirBridge.Delivery.Ledger.Postgres;
using HandFhirBridge.Delivery.Ledger.Sql;
using HandFhirBridge.Delivery.Ledger.Sqlite;
using Npgsql;

namespace HandFhirBridge.Delivery.Ledger;

/// <summary>Opens the store that the settings name.</summary>
public static class LedgerStores
{
    /// <summary>Opens it, made if there is none yet.</summary>
    /// <param name="options">Say which store and where.</param>
    /// <param name="clock">Gives the time.</param>
    /// <param name="protector">Seals payloads; null keeps them as they are.</param>
    /// <param name="signal">Pulsed when something may be due; null wakes nobody.</param>
    /// <exception cref="LedgerException">It cannot be used.</exception>
    public static SqlLedger Open(DeliveryOptions options, TimeProvider clock, IPayloadProtector? protector, LedgerSignal? signal = null)
    {
        ArgumentNullException.ThrowIfNull(options);
        if (options.LedgerConnection is not { } reference)
        {
            return new SqliteLedger(options.LedgerPath, clock, protector, signal);
        }

        return Fault(reference) is { } fault
            ? throw new LedgerException(LedgerProblems.Refused.At("Ledger:ConnectionString", fault))
            : new PostgresLedger(SecretReference.Read(reference), clock, protector, signal);
    }

    /// <summary>What is wrong with a connection string, in one sentence that does not quote it; null if nothing is.</summary>
    /// <param name="reference"><c>env:NAME</c> or <c>file:PATH</c>.</param>
    public static string? Fault(string reference)
    {
        ArgumentNullException.ThrowIfNull(reference);
        if (!SecretReference.IsWellFormed(reference))
        {
            return "Ledger:ConnectionString is neither env:NAME nor file:PATH. A connection string holds a password: put it into a variable or a file, and name that.";
        }

        try
        {
            var read = new NpgsqlConnectionStringBuilder(SecretReference.Read(reference));
            return read.Host is null || read.Database is null
                ? $"The connection string in {reference} lacks Host or Database. Write for example Host=db.clinic.example;Database=handfhirbridge;Username=handfhirbridge;Password=…;SSL Mode=VerifyFull."
                : null;
        }
        catch (SignInException missing)
        {
            return $"Ledger:ConnectionString: {missing.Message}";
        }
        catch (Exception unreadable) when (unreadable is ArgumentException or FormatException)
        {
            return $"The connection string in {reference} cannot be read. Write keywords of Npgsql as name=value, separated by semicolons.";
        }
    }
}
