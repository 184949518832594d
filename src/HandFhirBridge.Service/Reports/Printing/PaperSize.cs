namespace HandFhirBridge.Service.Reports.Printing;

/// <summary>Size of the pages of a PDF.</summary>
public enum PaperSize
{
    /// <summary>210 × 297 mm (ISO 216).</summary>
    A4,

    /// <summary>8.5 × 11 in (ANSI/ASME Y14.1, size A).</summary>
    Letter,
}
