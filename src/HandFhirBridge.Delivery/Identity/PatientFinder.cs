using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Identity;

/// <summary>
/// Finds the chart a session belongs to: by identifier, exactly one, in use, birth date and family name agreeing. Anything
/// else is for a person. A chart is never created and never guessed.
/// </summary>
/// <param name="clock">Gives the day against which periods are read.</param>
public sealed class PatientFinder(TimeProvider clock)
{
    /// <summary>Looks at the target, anew at every call.</summary>
    /// <param name="target">Where.</param>
    /// <param name="patient">Whom the session names.</param>
    /// <param name="choice">Chart that a person chose; null if none did.</param>
    /// <param name="cancellation">Ends the wait.</param>
    public async Task<PatientLookup> FindAsync(FhirTarget target, PatientIdentity patient, ChartChoice? choice, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(patient);
        if (choice is not null)
        {
            return await ChosenChart.FindAsync(target, choice, cancellation);
        }

        var lookup = await SearchAsync(target, patient, cancellation);
        if (!target.Options.CreatePatients || lookup.Doubt?.Kind != IdentityProblems.NotFound)
        {
            return lookup;
        }

        // Whatever is answered, the search says what is there now; the condition keeps a chart that came in between from being doubled.
        var (system, value) = (patient.Identifier.System, patient.Identifier.Value);
        var answer = await target.CreateAsync(
            "Patient", PatientProposals.Patient(patient).ToBytes(), $"identifier={FhirSearch.Token(system, value)}", cancellation);
        return answer.Succeeded ? await SearchAsync(target, patient, cancellation) : PatientLookup.Of(answer);
    }

    private async Task<PatientLookup> SearchAsync(FhirTarget target, PatientIdentity patient, CancellationToken cancellation)
    {
        var (system, value) = (patient.Identifier.System, patient.Identifier.Value);
        var result = await FhirSearch.RunAsync(target, $"Patient?identifier={FhirSearch.Token(system, value)}", cancellation);
        if (result.Failure is { } failure)
        {
            return PatientLookup.Of(failure);
        }

        // Servers that do not know the parameter, or read it loosely, answer with other patients: only the exact identifier counts.
        var charts = result.Hits.Where(hit => hit.Type == "Patient" && hit.IsMatch && hit.Carries(system, value)).ToImmutableArray();
        if (!result.IsComplete || (charts.IsEmpty && result.Hits.Any(hit => hit.IsMatch)))
        {
            return PatientLookup.Of(IdentityProblems.SearchNotTrusted.At(
                "$.patient.identifier", "The target answered the search for the identifier with other patients, or not to the end."));
        }

        return charts.IsEmpty
            ? PatientLookup.Of(IdentityProblems.NotFound.At("$.patient.identifier", "No patient at the target carries the identifier of the session."))
            : await ChooseAsync(target, charts, patient, cancellation);
    }

    private async Task<PatientLookup> ChooseAsync(
        FhirTarget target, ImmutableArray<SearchHit> charts, PatientIdentity patient, CancellationToken cancellation)
    {
        var today = DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime);
        var replaced = new ReplacedCharts(target);
        var survivors = new Dictionary<string, SearchHit>(StringComparer.Ordinal);
        var passed = ImmutableArray<string>.Empty;
        foreach (var chart in charts)
        {
            var (survivor, via, stop) = await replaced.FollowAsync(chart, cancellation);
            if (survivor is null)
            {
                return stop!;
            }

            survivors.TryAdd(survivor.Id, survivor);
            passed = passed.AddRange(via);
        }

        if (survivors.Count > 1)
        {
            return PatientLookup.Of(IdentityProblems.Several.At(
                "$.patient.identifier", $"{survivors.Count} patients at the target carry the identifier of the session."));
        }

        if (charts.All(chart => ChartCheck.IdentifierEnded(chart, patient.Identifier, today)))
        {
            return PatientLookup.Of(IdentityProblems.IdentifierEnded.At(
                "$.patient.identifier", "The chart marks the identifier of the session as no longer in use."));
        }

        var found = survivors.Values.Single();
        return ChartCheck.Find(found, patient, today) is { } doubt
            ? PatientLookup.Of(doubt)
            : PatientLookup.Of(new PatientMatch(found.Id, found.VersionId, [.. passed.Distinct()]));
    }
}
