using System.Collections.Concurrent;
using PdfSharp.Drawing;

namespace HandFhirBridge.Service.Reports.Printing;

/// <summary>Type of the printed report.</summary>
internal static class Typeface
{
    /// <summary>Height of a line beside the size of its type.</summary>
    public const double Leading = 1.28;

    // Looking a typeface up takes longer than drawing a word; reports and pictures have a handful of sizes.
    private static readonly ConcurrentDictionary<(double Size, bool Bold), XFont> Made = new();

    public static XFont Title { get; } = Of(15, bold: true);

    public static XFont Heading { get; } = Of(11.5, bold: true);

    public static XFont Body { get; } = Of(9, bold: false);

    public static XFont Strong { get; } = Of(9, bold: true);

    public static XFont Small { get; } = Of(7.5, bold: false);

    /// <summary>Of another size, for pictures.</summary>
    public static XFont Of(double size, bool bold) => Made.GetOrAdd((size, bold), static font =>
    {
        EmbeddedFonts.Install();
        return new(EmbeddedFonts.Family, font.Size, font.Bold ? XFontStyleEx.Bold : XFontStyleEx.Regular);
    });

    public static double LineOf(XFont font) => font.Size * Leading;
}
