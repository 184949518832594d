using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Interactions;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Bundles;

/// <summary>Carries out one entry within a session.</summary>
/// <param name="session">Where it reads and writes.</param>
/// <param name="matching">Finds what conditions ask for.</param>
/// <param name="options">Page sizes of searches.</param>
/// <param name="baseUrl">This server's base.</param>
/// <param name="preference">What the client prefers to get back.</param>
internal sealed class EntryRunner(RecordSession session, SingleMatch matching, RecordOptions options, string baseUrl, Preference preference)
{
    public EntryAnswer Run(EntryPlan plan)
    {
        if (plan.Request.Verb == Bundle.HTTPVerb.GET)
        {
            return Get(plan.Request);
        }

        var (resource, status) = plan.Write(session, matching);
        return new(
            status,
            resource,
            preference.Return == ReturnPreference.Representation ? resource?.Json : null,
            preference.Return == ReturnPreference.OperationOutcome ? Preference.Done(status) : null);
    }

    private EntryAnswer Get(EntryRequest request)
    {
        if (request.Id is null)
        {
            return new(200, null, new SearchInteraction(session, options, baseUrl).Run(request.Type, QueryText.Parse(request.Query ?? ""), preference.Lenient));
        }

        var reading = new ReadInteraction(session);
        var stored = request.Version is { } version ? reading.Version(request.Type, request.Id, version) : reading.Current(request.Type, request.Id);
        return new(200, stored, stored.Json);
    }
}
