using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Identity;

/// <summary>
/// Looks up the chart that a person chose: it must still be there and in use, and links to a chart that replaced it are
/// followed. Identifier, name, birth date and death are what the person decided about, and are not compared.
/// </summary>
internal static class ChosenChart
{
    public static async Task<PatientLookup> FindAsync(FhirTarget target, ChartChoice choice, CancellationToken cancellation)
    {
        var answer = await target.GetAsync($"Patient/{Uri.EscapeDataString(choice.PatientId)}", cancellation);
        if (answer.Status is 404 or 410 || (answer.Succeeded && (answer.ResourceType != "Patient" || answer.Resource.Text("id") != choice.PatientId)))
        {
            return PatientLookup.Of(IdentityProblems.ChosenGone.At("$.patient", "The chart that a person chose is not at the target."));
        }

        if (!answer.Succeeded)
        {
            return PatientLookup.Of(answer);
        }

        var (chart, passed, stop) = await new ReplacedCharts(target).FollowAsync(new("Patient", choice.PatientId, answer.Resource, true), cancellation);
        if (chart is null)
        {
            return stop!;
        }

        return chart.Resource.Flag("active") == false
            ? PatientLookup.Of(IdentityProblems.Inactive.At("$.patient", "The chart that a person chose is not active."))
            : PatientLookup.Of(new PatientMatch(chart.Id, chart.VersionId, passed));
    }
}
