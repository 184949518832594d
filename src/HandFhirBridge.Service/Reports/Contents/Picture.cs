namespace HandFhirBridge.Service.Reports.Contents;

/// <summary>The picture of both hands beside the norm bands.</summary>
/// <param name="Report">What it shows.</param>
internal sealed record Picture(SessionReport Report) : ReportBlock;
