using HandFhirBridge.Service.Hosting;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Service.Http;

/// <summary>The CapabilityStatement of <c>/fhir</c>: questionnaires to read, responses to hand in. Results are read from the record, not here.</summary>
internal static class FormCapabilities
{
    // Structured Data Capture, canonical URL of the operation.
    private const string Extract = "http://hl7.org/fhir/uv/sdc/OperationDefinition/QuestionnaireResponse-extract";

    public static CapabilityStatement Of(string address, DateTimeOffset now) => new()
    {
        Status = PublicationStatus.Active,
        DateElement = new(now),
        Kind = CapabilityStatementKind.Instance,
        Software = new() { Name = "HandFhirBridge", Version = BridgeParts.Version },
        Implementation = new() { Description = "Way in for completed session forms", Url = address },
        FhirVersion = FHIRVersion.N4_0_1,
        Format = ["json"],
        Rest =
        [
            new()
            {
                Mode = CapabilityStatement.RestfulCapabilityMode.Server,
                Resource =
                [
                    new()
                    {
                        Type = "Questionnaire",
                        Interaction =
                        [
                            new() { Code = CapabilityStatement.TypeRestfulInteraction.Read },
                            new() { Code = CapabilityStatement.TypeRestfulInteraction.SearchType },
                        ],
                        SearchParam = [new() { Name = "url", Type = SearchParamType.Uri }],
                    },
                    new() { Type = "QuestionnaireResponse", Operation = [new() { Name = "extract", Definition = Extract }] },
                ],
            },
        ],
    };
}
