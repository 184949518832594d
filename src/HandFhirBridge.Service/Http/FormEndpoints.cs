using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Fhir.Extraction;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Profiles;
using HandFhirBridge.Service.Auditing;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Pipeline;
using HandFhirBridge.Service.Reports;
using HandFhirBridge.Service.Security;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Service.Http;

/// <summary>The questionnaires, and the way in for responses that any form filler made (Structured Data Capture, operation <c>$extract</c>).</summary>
public static class FormEndpoints
{
    /// <summary>Maps <c>/fhir</c>.</summary>
    public static void MapForms(this IEndpointRouteBuilder endpoints)
    {
        var fhir = endpoints.MapGroup("/fhir").WithTags("Forms");
        fhir.MapGet("/metadata", (HttpRequest request, TimeProvider clock) => FhirResults.Resource(FormCapabilities.Of(BaseOf(request), clock.GetUtcNow())))
            .AllowAnonymous().WithSummary("What of FHIR is offered here.").Produces<object>(StatusCodes.Status200OK, FhirResults.MediaType);
        fhir.MapGet("/Questionnaire/{id}", Questionnaire).AllowAnonymous()
            .WithSummary("A questionnaire of the package.").Produces<object>(StatusCodes.Status200OK, FhirResults.MediaType).ProducesOutcome(404);
        fhir.MapGet("/Questionnaire", Search).AllowAnonymous()
            .WithSummary("The questionnaires, by url, or all.").Produces<object>(StatusCodes.Status200OK, FhirResults.MediaType);
        fhir.MapPost("/QuestionnaireResponse/$extract", ExtractAsync).RequireAuthorization(Scopes.Submit).Audit("operation")
            .WithSummary("What a completed response to the whole-session Questionnaire becomes; with deliver=true it is handed in.")
            .Accepts<object>(FhirResults.MediaType, "application/json").Produces<object>(StatusCodes.Status200OK, FhirResults.MediaType)
            .ProducesOutcome(202, 400, 409, 413, 415, 422);
    }

    private static IResult Questionnaire(string id) => PackageQuestionnaires.Find(id) is { } found
        ? Results.Bytes(found, FhirResults.MediaType)
        : FhirResults.Refused(ServiceProblems.NoSuchQuestionnaire.At("", $"There is no Questionnaire \"{id}\" in {ProfilePackage.Identity}.", id));

    private static IResult Search(HttpRequest request, string? url) =>
        FhirResults.Resource(PackageQuestionnaires.Search(url, BaseOf(request)));

    private static string BaseOf(HttpRequest request) => $"{request.Scheme}://{request.Host}{request.PathBase}/fhir";

    private static async Task<IResult> ExtractAsync(
        HttpRequest request, bool? deliver, SessionExtraction extraction, SessionPipeline pipeline, EarlierSessions earlier,
        ILedger ledger, CancellationToken cancellation)
    {
        var (bytes, unreadable) = await SessionBody.ReadAsync(request, cancellation);
        if (unreadable is not null)
        {
            return FhirResults.Refused(unreadable);
        }

        var read = extraction.Read(bytes);
        if (read.Value is { } named)
        {
            Audited.Concerns(request.HttpContext, IdentifierSystems.Report, named.Key);
        }

        var prepared = pipeline.Prepare(read, read is { Succeeded: true, Value: { } handedIn } ? await earlier.FindAsync(handedIn, cancellation) : null);
        if (prepared.Value is not { } session)
        {
            return FhirResults.Refused(prepared.Problems);
        }

        if (deliver is not true)
        {
            return FhirResults.Resource(session.Bundle);
        }

        var result = (await ledger.AcceptAsync([session.ToAccept()], cancellation))[0];
        if (result.Problem is { } problem)
        {
            return FhirResults.Refused(problem);
        }

        request.HttpContext.Response.Headers.Location = SessionEndpoints.AddressOf(result.Key);
        return FhirResults.Resource(OutcomeResource.Of(prepared.Problems), StatusCodes.Status202Accepted);
    }
}
