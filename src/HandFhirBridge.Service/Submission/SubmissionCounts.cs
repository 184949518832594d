using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Service.Submission;

/// <summary>What came of handing sessions in.</summary>
/// <param name="Accepted">New in the ledger.</param>
/// <param name="Already">Held already with the same content; nothing was added.</param>
/// <param name="Rejected">Refused; nothing of them is stored.</param>
/// <param name="Keys">Every session that is in the ledger now, new or not.</param>
/// <param name="RejectFiles">Files that hold what was refused.</param>
public sealed record SubmissionCounts(
    int Accepted, int Already, int Rejected, IReadOnlyList<SessionKey> Keys, IReadOnlyList<string> RejectFiles)
{
    /// <inheritdoc/>
    public override string ToString() =>
        $"{Accepted} accepted, {Already} accepted before, {Rejected} refused.{(RejectFiles.Count > 0 ? $" Refused sessions are in {string.Join(", ", RejectFiles)}: correct them and submit those files." : "")}";
}
