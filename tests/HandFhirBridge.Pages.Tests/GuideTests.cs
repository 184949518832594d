using System.Text.RegularExpressions;
using HandFhirBridge.Pages.Tests.Bedside;

namespace HandFhirBridge.Pages.Tests;

/// <summary>The therapist's guide shows pictures that these tests make, and all of them.</summary>
public sealed partial class GuideTests
{
    // For a guide that opens on a slow network too.
    private const int LargestPicture = 120_000;

    private static string Docs => Path.Combine(AppContext.BaseDirectory, "docs");

    [Fact]
    public void Guide_EveryPicture_IsMadeHereAndSmall()
    {
        var shown = Picture().Matches(File.ReadAllText(Path.Combine(Docs, "therapist-guide.md"))).Select(m => m.Groups[1].Value).ToList();

        shown.Order().ShouldBe(Album.Guide.Select(g => g.File).Order());
        shown.ShouldAllBe(file => new FileInfo(Path.Combine(Docs, "images", file)).Length < LargestPicture);
    }

    [GeneratedRegex(@"\]\(images/([a-z-]+\.png)\)")]
    private static partial Regex Picture();
}
