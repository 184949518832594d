using OxyPlot;

namespace HandFhirBridge.Service.Reports.Pictures;

/// <summary>Colours of the picture; each also reads in grey.</summary>
internal static class Ink
{
    public static OxyColor Text { get; } = OxyColor.FromRgb(0x1b, 0x1f, 0x24);

    public static OxyColor Slow { get; } = OxyColor.FromRgb(0x9b, 0x12, 0x12);

    public static OxyColor Line { get; } = OxyColor.FromRgb(0x55, 0x5f, 0x6b);

    public static OxyColor Grid { get; } = OxyColor.FromRgb(0xe3, 0xe6, 0xea);

    public static OxyColor Band { get; } = OxyColor.FromRgb(0xd3, 0xd9, 0xe0);
}
