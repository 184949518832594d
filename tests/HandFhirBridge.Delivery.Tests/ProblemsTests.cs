using System.Runtime.CompilerServices;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Tests;

public sealed class ProblemsTests
{
    private static readonly IReadOnlyList<ProblemKind> All = [.. DeliveryProblems.All, .. IdentityProblems.All, .. LedgerProblems.All];

    [Fact]
    public void Codes_AllOfThem_AreUniqueAndInTheirRange()
    {
        All.Select(k => k.Code).Distinct().Count().ShouldBe(All.Count);
        DeliveryProblems.All.ShouldAllBe(k => k.Code.StartsWith("HFB40", StringComparison.Ordinal));
        IdentityProblems.All.ShouldAllBe(k => k.Code.StartsWith("HFB41", StringComparison.Ordinal));
        LedgerProblems.All.ShouldAllBe(k => k.Code.StartsWith("HFB5", StringComparison.Ordinal));
    }

    [Fact]
    public void Codes_AllOfThem_StandInTheReferencePageWithTheirRemedy()
    {
        var page = File.ReadAllText(Path.Combine(Path.GetDirectoryName(Here())!, "../../docs/errors.md"));

        foreach (var kind in All)
        {
            page.ShouldContain($"| {kind.Code} | {kind.Severity.ToString().ToLowerInvariant()} | {kind.HttpStatus} | {kind.Title} | {kind.Remedy} |");
        }
    }

    private static string Here([CallerFilePath] string path = "") => path;
}
