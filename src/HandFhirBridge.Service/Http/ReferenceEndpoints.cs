using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Pipeline;
using HandFhirBridge.Service.Security;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Http;

/// <summary>What clients look up: instruments, clinics, the schema, what this service is.</summary>
public static class ReferenceEndpoints
{
    /// <summary>Maps <c>/instruments</c>, <c>/sites</c>, <c>/about</c> and <c>/schemas</c>.</summary>
    public static void MapReference(this IEndpointRouteBuilder endpoints)
    {
        endpoints.MapGet("/instruments/{id}", Instrument).RequireAuthorization(Scopes.Read).WithTags("Reference")
            .WithSummary("The definition of an instrument.").Produces<Instrument>();
        endpoints.MapGet("/sites", (BridgeSettings settings) => settings.Sites.Select(s => new { s.Id, s.Name }))
            .RequireAuthorization(Scopes.Read).WithTags("Reference").WithSummary("The clinics served.");
        endpoints.MapGet("/about", (BridgeSettings settings) => new { settings.Demonstration, BridgeParts.Version })
            .AllowAnonymous().WithTags("Reference").WithSummary("Version, and whether this is a demonstration.");
        endpoints.MapGet("/schemas/session-1.json", () => Results.Stream(SessionSchema.Open(), "application/schema+json"))
            .AllowAnonymous().WithTags("Reference").WithSummary("JSON Schema of the session document.");
    }

    private static IResult Instrument(string id, InstrumentLibrary instruments) =>
        instruments.All.LastOrDefault(i => i.Id == id) is { } instrument
            ? Results.Ok(instrument)
            : FhirResults.Refused(ServiceProblems.NoSuchInstrument.At("", $"There is no instrument \"{id}\".", id));
}
