using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>
/// The form in which a session lies at a target already, in this revision or an earlier one. A correction in a poorer or another
/// form would leave the old results standing beside the new.
/// </summary>
/// <param name="target">Where.</param>
/// <param name="whole">The whole session.</param>
internal sealed class FormerForm(FhirTarget target, SessionBundle whole)
{
    private bool? report;
    private bool? observations;
    private bool? document;

    /// <summary>Why a search for it cannot be relied on; null if none had to be doubted.</summary>
    public Problem? Doubt { get; private set; }

    /// <summary>Answer after which asking again may help; null if there was none.</summary>
    public TargetAnswer? Failure { get; private set; }

    /// <summary>True if writing by this rung leaves nothing standing that it does not replace.</summary>
    public async Task<bool> SuitsAsync(Rung rung, CancellationToken cancellation) => rung switch
    {
        Rung.ObservationsAndDocument => !await HasReportAsync(cancellation),
        Rung.DocumentAlone => !await HasReportAsync(cancellation) && !await HasObservationsAsync(cancellation),
        _ => !await HasDocumentAsync(cancellation),
    };

    private async Task<bool> HasReportAsync(CancellationToken cancellation) => report ??= await IsThereAsync(whole.Report, cancellation);

    private async Task<bool> HasObservationsAsync(CancellationToken cancellation) =>
        observations ??= await IsThereAsync(whole.Entries.First(entry => entry.Type == "Observation"), cancellation);

    private async Task<bool> HasDocumentAsync(CancellationToken cancellation)
    {
        for (var revision = whole.Revision; document is null && revision > 0; revision--)
        {
            document = await IsThereAsync(ReportDocument.ToFind(whole.Report, revision), cancellation) ? true : null;
        }

        return document ??= false;
    }

    /// <summary>Asked also of types that are not declared, as a target may hold what it no longer takes; one that does not let them be searched is taken to hold none.</summary>
    private async Task<bool> IsThereAsync(SessionEntry entry, CancellationToken cancellation)
    {
        var recorded = await RecordSearch.FindAsync(target, whole, entry, cancellation);
        Doubt ??= recorded.Doubt;
        Failure ??= recorded.Failure is { Status: null or 408 or 429 or >= 500 } passing ? passing : null;
        // What was taken back stands for nothing; to a withdrawal it is what an earlier attempt of it left.
        return recorded.Found.TryGetValue(entry.Index, out var found) && (whole.IsWithdrawn || found.Resource.Text("status") != "entered-in-error");
    }
}
