using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>What came of reading the report back after a write.</summary>
/// <param name="ReportId">Id of the report at the target; null if it was not found.</param>
/// <param name="Expected">Results the report was sent with.</param>
/// <param name="Found">Those of them the target gives back.</param>
/// <param name="Failure">The answer that stood in the way; null if there was none.</param>
public sealed record ReadBack(string? ReportId, int Expected, int Found, TargetAnswer? Failure)
{
    /// <summary>True if the report and all its results are there.</summary>
    public bool IsComplete => ReportId is not null && Found == Expected;

    /// <summary>Asks for the report by its identifier together with its results, in one search.</summary>
    public static async Task<ReadBack> OfAsync(FhirTarget target, SessionBundle bundle, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(bundle);
        var expected = Results(bundle);
        var search = await FhirSearch.RunAsync(
            target, $"DiagnosticReport?{bundle.Report.Condition}&_include=DiagnosticReport:result", cancellation);
        if (search.Failure is { } failure)
        {
            return new(null, expected.Count, 0, failure);
        }

        var (system, value) = bundle.Report.Identifier!.Value;
        var report = search.Hits.FirstOrDefault(hit => hit.Type == "DiagnosticReport" && hit.Carries(system, value));
        var found = expected.Count(entry => search.Hits.Any(hit =>
            hit.Type == entry.Type && entry.Identifier is { } identifier && hit.Carries(identifier.System, identifier.Value)));
        return new(report?.Id, expected.Count, found, null);
    }

    private static List<SessionEntry> Results(SessionBundle bundle)
    {
        var results = bundle.Report.Resource.Objects("result").Select(result => result.Text("reference")).ToHashSet();
        return [.. bundle.Entries.Where(entry => results.Contains(entry.FullUrl))];
    }
}
