using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Service.Cli;

/// <summary>The session that a command of the ledger names.</summary>
internal static class LedgerSession
{
    /// <summary>All its revisions, first to last.</summary>
    /// <exception cref="CommandFailedException">It is not written as SITE/ID, or the ledger does not hold it.</exception>
    public static async Task<IReadOnlyList<LedgerEntry>> RevisionsAsync(ILedger ledger, string session, CancellationToken cancellation)
    {
        var (site, id) = Split(session);
        var revisions = await ledger.ReadRevisionsAsync(site, id, cancellation);
        return revisions.Count > 0
            ? revisions
            : throw new CommandFailedException($"The ledger holds no session {session}. List what it holds with: ledger list.", Hosting.ExitCode.Findings);
    }

    /// <summary>Site and session id.</summary>
    /// <exception cref="CommandFailedException">It is not written as SITE/ID.</exception>
    public static (string Site, string Id) Split(string session) => session.Split('/') is [var site, var id]
        ? (site, id)
        : throw new CommandFailedException($"\"{session}\" is not SITE/ID.", Hosting.ExitCode.Usage);
}
