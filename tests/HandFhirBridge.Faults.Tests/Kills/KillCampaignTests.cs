using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Faults.Tests.Servers;
using HandFhirBridge.Faults.Tests.Support;

namespace HandFhirBridge.Faults.Tests.Kills;

/// <summary>
/// What is accepted ends in the right chart exactly once, whatever instant the process dies at and however the server behaves.
/// FAULTS_KILLS sets how many kills (default 100), FAULTS_SEED repeats a run's plan, FAULTS_SERVER names one behaviour alone.
/// </summary>
public sealed class KillCampaignTests
{
    private static readonly ServerKind[] All =
    [
        new(Behaviour.Good, Rung.TransactionOfUpdates),
        new(Behaviour.Slow, Rung.TransactionOfConditionalCreates),
        new(Behaviour.Slow, Rung.SingleWrites),
        new(Behaviour.Flaky, Rung.TransactionOfUpdates),
        new(Behaviour.Flaky, Rung.SingleWrites),
        new(Behaviour.HalfStoring, Rung.TransactionOfUpdates),
        new(Behaviour.HalfStoring, Rung.TransactionOfConditionalCreates),
        new(Behaviour.Racing, Rung.TransactionOfConditionalCreates),
    ];

    [Fact]
    public async Task Kill_AtRandomInstants_LosesDoublesAndMisfilesNothing()
    {
        var kills = Plan.Number("FAULTS_KILLS") ?? 100;
        var seed = Plan.Seed;
        Plan.Say($"FAULTS_SEED={seed}");
        var kinds = Array.FindAll(All, k => Environment.GetEnvironmentVariable("FAULTS_SERVER") is not { Length: > 0 } only || k.Behaviour.ToString() == only);
        var results = new List<CampaignResult>();
        foreach (var (kind, index) in kinds.Select((kind, index) => (kind, index)))
        {
            var share = (kills * (index + 1) / kinds.Length) - (kills * index / kinds.Length);
            results.Add(await new Campaign(kind, share, seed + index).RunAsync(TestContext.Current.CancellationToken));
            Plan.Say(results[^1].ToString());
        }

        var (lost, doubled, misfiled) = (Of(v => v.Lost), Of(v => v.Doubled), Of(v => v.Misfiled));
        Plan.Say($"{results.Sum(r => r.Kills)} kills, {results.Sum(r => r.Verdict.Sessions)} sessions accepted, {results.Sum(r => r.Verdict.Resources)} resources read: "
            + $"{lost.Count} lost, {doubled.Count} doubled, {misfiled.Count} misfiled");
        results.Sum(r => r.Kills).ShouldBe(kills);
        lost.Concat(doubled).Concat(misfiled).ShouldBeEmpty($"FAULTS_SEED={seed}");
        results.Sum(r => r.Waiting).ShouldBe(0, $"FAULTS_SEED={seed}: sessions were left for a person.");

        List<string> Of(Func<Verdict, IEnumerable<string>> part) => [.. results.SelectMany(r => part(r.Verdict))];
    }
}
