using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Service.Output;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Service.Http;

/// <summary>HTTP answers that carry FHIR.</summary>
public static class FhirResults
{
    /// <summary>Media type of FHIR in JSON.</summary>
    public const string MediaType = "application/fhir+json";

    /// <summary>Describes answers that carry an OperationOutcome.</summary>
    public static RouteHandlerBuilder ProducesOutcome(this RouteHandlerBuilder route, params ReadOnlySpan<int> statuses)
    {
        foreach (var status in statuses)
        {
            route.Produces<object>(status, MediaType);
        }

        return route;
    }

    /// <summary>A resource with a status.</summary>
    public static IResult Resource(Resource resource, int status = StatusCodes.Status200OK) =>
        Results.Text(FhirJsonSerializer.Default.SerializeToString(resource), MediaType, statusCode: status);

    /// <summary>Problems as an OperationOutcome, under the status of the gravest.</summary>
    public static IResult Refused(IReadOnlyCollection<Problem> problems) =>
        Resource(OutcomeResource.Of(problems), OutcomeResource.StatusOf(problems));

    /// <summary>One problem as an OperationOutcome, under its status.</summary>
    public static IResult Refused(Problem problem) => Refused([problem]);
}
