using System.Text.Json;
using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Delivery.Writing;

namespace HandFhirBridge.Delivery.Tests.Writing;

public sealed class StoredEntryTests
{
    // R4 bundle.html: Bundle.entry.response.status "SHALL start with a 3 digit HTTP code"; .location may be relative or absolute.
    [Theory]
    [InlineData("200", true)]
    [InlineData("201", true)]
    [InlineData("201 Created", true)]
    [InlineData("200 OK", true)]
    [InlineData("204 No Content", true)]
    [InlineData("304 Not Modified", false)]
    [InlineData("400 Bad Request", false)]
    [InlineData("2010", false)]
    [InlineData("Created", false)]
    [InlineData("", false)]
    public void Of_Status_IsReadFromItsDigits(string status, bool succeeded) =>
        StoredEntry.Of(new JsonObject { ["response"] = new JsonObject { ["status"] = status } }.ToElement()).Succeeded.ShouldBe(succeeded);

    [Theory]
    [InlineData("Observation/a-1/_history/2", "a-1")]
    [InlineData("Observation/a-1", "a-1")]
    [InlineData("https://fhir.example/r4/Observation/a-1/_history/W1", "a-1")]
    [InlineData("https://fhir.example/r4/Observation/a-1/", "a-1")]
    [InlineData("nonsense", null)]
    public void Of_Location_GivesTheId(string location, string? id) =>
        StoredEntry.Of(new JsonObject { ["response"] = new JsonObject { ["status"] = "201", ["location"] = location } }.ToElement()).Id.ShouldBe(id);

    [Fact]
    public void Of_ResourceInsteadOfLocation_GivesTheId() =>
        StoredEntry.Of(JsonElement.Parse("""{ "resource": { "id": "b-2" }, "response": { "status": "201" } }""")).Id.ShouldBe("b-2");
}
