namespace HandFhirBridge.Service.Reports.Contents;

/// <summary>One paragraph, list, table or picture.</summary>
internal abstract record ReportBlock;
