using HandFhirBridge.Fhir.Mapping;

namespace HandFhirBridge.Fhir.Tests.Mapping;

public sealed class ResourceIdsTests
{
    // Expected ids were computed with another implementation of RFC 9562: uuid.uuid5 of Python 3.
    [Theory]
    [InlineData(IdentifierSystems.Report, "north-clinic/S-1", "7a4ce9bf-e037-525c-af48-fb183d669b5f")]
    [InlineData(IdentifierSystems.Trial, "north-clinic/S-1/writing/left", "285033cf-960a-59cd-b648-12fa6f7a25e3")]
    [InlineData(IdentifierSystems.Attempt, "north-clinic/S-1/writing/left/2", "339e47d9-cd55-5401-a841-35995c7ae9e2")]
    [InlineData(IdentifierSystems.Provenance, "north-clinic/S-1/1", "5c1ac607-b468-5d48-b42c-218586a1e42f")]
    [InlineData(IdentifierSystems.Software, "0.1.0", "b3890996-19d4-5798-bf2c-e58acabf6a40")]
    [InlineData(IdentifierSystems.Panel, "north-clinic/S-1/left", "5eccd769-5c66-5195-bace-44faea86df68")]
    [InlineData(IdentifierSystems.Total, "north-clinic/S-1/six-task-total/right", "623d3d2a-f1b6-50e9-a256-536a03197e5f")]
    [InlineData(IdentifierSystems.SetupResponse, "north-clinic/S-1", "dd131ca9-423e-5cf2-96df-d76a180f486b")]
    [InlineData(IdentifierSystems.Dominance, "north-clinic/S-1", "938aae21-8547-5b7b-9d67-cb85a1dcc6c6")]
    [InlineData(IdentifierSystems.Kit, "north-clinic/K-7", "6538514f-ae86-5973-8519-64b45af04b49")]
    public void Of_Identifier_GivesTheIdAnotherImplementationGives(string system, string value, string id) =>
        ResourceIds.Of(system, value).ShouldBe(id);
}
