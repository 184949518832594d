using PdfSharp.Fonts;

namespace HandFhirBridge.Service.Reports.Printing;

/// <summary>The typefaces that come with this assembly, so that a PDF looks the same wherever it is made.</summary>
internal sealed class EmbeddedFonts : IFontResolver
{
    /// <summary>Name of the family.</summary>
    public const string Family = "DejaVu Sans Condensed";

    private const string Regular = "DejaVuSansCondensed.ttf";
    private const string Bold = "DejaVuSansCondensed-Bold.ttf";

    private static readonly Lazy<bool> Installed = new(() =>
    {
        GlobalFontSettings.FontResolver = new EmbeddedFonts();
        return true;
    });

    /// <summary>Makes them known to the PDF library, once a process.</summary>
    public static void Install() => _ = Installed.Value;

    /// <inheritdoc/>
    public FontResolverInfo? ResolveTypeface(string familyName, bool isBold, bool isItalic) => new(isBold ? Bold : Regular);

    /// <inheritdoc/>
    public byte[]? GetFont(string faceName)
    {
        using var source = typeof(EmbeddedFonts).Assembly.GetManifestResourceStream("fonts/" + faceName)!;
        using var target = new MemoryStream();
        source.CopyTo(target);
        return target.ToArray();
    }
}
