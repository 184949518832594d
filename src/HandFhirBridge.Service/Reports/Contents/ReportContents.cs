using System.Collections.Immutable;

namespace HandFhirBridge.Service.Reports.Contents;

/// <summary>Everything a report says, in its order, before it becomes a page or a PDF; so that both say the same.</summary>
/// <param name="Title">Title.</param>
/// <param name="Footer">Repeated at the foot of each printed page: whose report, which version.</param>
/// <param name="Issued">When this version was issued.</param>
/// <param name="Notices">What must be seen first; may be empty.</param>
/// <param name="Sections">The rest.</param>
internal sealed record ReportContents(
    string Title, string Footer, DateTimeOffset Issued, ImmutableArray<string> Notices, ImmutableArray<ReportSection> Sections);
