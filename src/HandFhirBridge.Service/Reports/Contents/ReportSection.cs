using System.Collections.Immutable;

namespace HandFhirBridge.Service.Reports.Contents;

/// <summary>A part of a report with its heading.</summary>
/// <param name="Heading">Heading; null for the part right under the title.</param>
/// <param name="Blocks">What stands in it.</param>
internal sealed record ReportSection(string? Heading, ImmutableArray<ReportBlock> Blocks);
