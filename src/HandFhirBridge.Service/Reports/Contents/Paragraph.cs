namespace HandFhirBridge.Service.Reports.Contents;

/// <summary>A paragraph.</summary>
/// <param name="Text">Its words.</param>
internal sealed record Paragraph(string Text) : ReportBlock;
