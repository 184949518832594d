using System.Collections.Immutable;

namespace HandFhirBridge.Service.Reports.Contents;

/// <summary>Points, each a name and what is to be said of it.</summary>
/// <param name="Items">The points.</param>
internal sealed record Points(ImmutableArray<Point> Items) : ReportBlock;
