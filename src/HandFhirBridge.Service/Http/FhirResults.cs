using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Service.Output;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Service.Http;

/// <summary>HTTP answers that carry FHIR.</summary>
public static class FhirResults
{
    private const string MediaType = "application/fhir+json";

    /// <summary>A resource with a status.</summary>
    public static IResult Resource(Resource resource, int status = StatusCodes.Status200OK) =>
        Results.Text(FhirJsonSerializer.Default.SerializeToString(resource), MediaType, statusCode: status);

    /// <summary>Problems as an OperationOutcome, under the status of the gravest.</summary>
    public static IResult Refused(IReadOnlyCollection<Problem> problems) =>
        Resource(OutcomeResource.Of(problems), OutcomeResource.StatusOf(problems));

    /// <summary>One problem as an OperationOutcome, under its status.</summary>
    public static IResult Refused(Problem problem) => Refused([problem]);
}
