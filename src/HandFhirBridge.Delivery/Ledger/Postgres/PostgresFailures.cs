using HandFhirBridge.Assessment.Problems;
using Npgsql;

namespace HandFhirBridge.Delivery.Ledger.Postgres;

/// <summary>What a failure of PostgreSQL means to whoever runs the service. States: PostgreSQL documentation, appendix A "Error Codes".</summary>
internal static class PostgresFailures
{
    private const string SendingIndex = "sessions_sending";

    /// <summary>True if another instance was quicker and the same transaction may succeed when run anew.</summary>
    public static bool IsLostRace(PostgresException failure) => failure.SqlState
        is PostgresErrorCodes.SerializationFailure or PostgresErrorCodes.DeadlockDetected
        || (failure.SqlState == PostgresErrorCodes.UniqueViolation && failure.ConstraintName == SendingIndex);

    /// <summary>True if the connection, and with it the transaction, is gone.</summary>
    public static bool IsLostConnection(NpgsqlException failure) => failure is not PostgresException
        || failure.SqlState is PostgresErrorCodes.AdminShutdown or PostgresErrorCodes.CrashShutdown;

    /// <summary>The problem, with the server's state and never its text: that may quote values.</summary>
    /// <param name="failure">As thrown.</param>
    /// <param name="database">Host and database.</param>
    public static Problem Describe(NpgsqlException failure, string database)
    {
        var kind = KindOf(failure);
        var what = failure is PostgresException ? $"PostgreSQL error {failure.SqlState}" : failure.InnerException?.GetType().Name ?? failure.GetType().Name;
        return kind.At(
            "Ledger",
            $"{kind.Title}: {database} ({what}).",
            database,
            kind == LedgerProblems.Unusable ? "Look the error up in the PostgreSQL server's log and mend its cause there." : null);
    }

    private static ProblemKind KindOf(NpgsqlException failure) => failure is PostgresException
        ? failure.SqlState switch
        {
            PostgresErrorCodes.DiskFull => LedgerProblems.DiskFull,
            PostgresErrorCodes.DataCorrupted or PostgresErrorCodes.IndexCorrupted => LedgerProblems.Corrupt,
            PostgresErrorCodes.InvalidCatalogName or PostgresErrorCodes.InsufficientPrivilege or PostgresErrorCodes.ReadOnlySqlTransaction => LedgerProblems.Refused,
            { } state when state.StartsWith("28", StringComparison.Ordinal) => LedgerProblems.Refused,
            { } state when state[..2] is "08" or "53" or "57" => LedgerProblems.Unreachable,
            _ => LedgerProblems.Unusable,
        }
        : LedgerProblems.Unreachable;
}
