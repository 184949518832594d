using PdfSharp.Drawing;

namespace HandFhirBridge.Service.Reports.Printing;

/// <summary>Type of the printed report.</summary>
internal static class Typeface
{
    /// <summary>Height of a line beside the size of its type.</summary>
    public const double Leading = 1.28;

    public static XFont Title { get; } = Of(15, bold: true);

    public static XFont Heading { get; } = Of(11.5, bold: true);

    public static XFont Body { get; } = Of(9, bold: false);

    public static XFont Strong { get; } = Of(9, bold: true);

    public static XFont Small { get; } = Of(7.5, bold: false);

    /// <summary>Of another size, for pictures.</summary>
    public static XFont Of(double size, bool bold)
    {
        EmbeddedFonts.Install();
        return new(EmbeddedFonts.Family, size, bold ? XFontStyleEx.Bold : XFontStyleEx.Regular);
    }

    public static double LineOf(XFont font) => font.Size * Leading;
}
