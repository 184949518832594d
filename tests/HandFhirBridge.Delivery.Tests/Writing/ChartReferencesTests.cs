using System.Text;
using System.Text.Json.Nodes;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Delivery.Tests.Servers;
using HandFhirBridge.Delivery.Writing;

namespace HandFhirBridge.Delivery.Tests.Writing;

public sealed class ChartReferencesTests
{
    private static readonly BusinessIdentifier Patient = new("https://north-clinic.example/patients", "P-0001");

    // R4 references.html#logical: a Reference may carry an identifier and the type of what it identifies, and a literal address beside them.
    [Theory]
    [InlineData(
        """{"subject":{"type":"Patient","identifier":{"system":"https://north-clinic.example/patients","value":"P-0001"}}}""",
        """{"subject":{"reference":"Patient/7","type":"Patient","identifier":{"system":"https://north-clinic.example/patients","value":"P-0001"}}}""")]
    [InlineData(
        """{"subject": { "identifier": {"value":"P-0001","system":"https:\/\/north-clinic.example\/patients"}, "type":"Patient" } }""",
        """{"subject": {"reference":"Patient/7", "identifier": {"value":"P-0001","system":"https:\/\/north-clinic.example\/patients"}, "type":"Patient" } }""")]
    [InlineData(
        """[{"reference":"Patient/1","type":"Patient","identifier":{"system":"https://north-clinic.example/patients","value":"P-0001"},"display":"x"},12.40]""",
        """[{"reference":"Patient/7","type":"Patient","identifier":{"system":"https://north-clinic.example/patients","value":"P-0001"},"display":"x"},12.40]""")]
    public void Put_ReferenceToThePatient_GetsTheAddressAndNothingElseChanges(string json, string expected) => Put(json).ShouldBe(expected);

    [Theory]
    [InlineData("""{"subject":{"type":"Patient","identifier":{"system":"https://north-clinic.example/patients","value":"P-0002"}}}""")]
    [InlineData("""{"subject":{"type":"Patient","identifier":{"system":"https://south-clinic.example/patients","value":"P-0001"}}}""")]
    [InlineData("""{"performer":{"type":"Practitioner","identifier":{"system":"https://north-clinic.example/patients","value":"P-0001"}}}""")]
    [InlineData("""{"subject":{"identifier":{"system":"https://north-clinic.example/patients","value":"P-0001"}}}""")]
    [InlineData("""{"resourceType":"Patient","type":"Patient","identifier":[{"system":"https://north-clinic.example/patients","value":"P-0001"}]}""")]
    [InlineData("""{"subject":{"type":"Patient","identifier":{"system":"https://north-clinic.example/patients","value":7}}}""")]
    public void Put_AnythingElse_IsLeftAsItIs(string json) => Put(json).ShouldBe(json);

    [Fact]
    public void Put_WholeSession_IsWhatEachReferenceAskedForOneByOneGives()
    {
        var session = MappedSessions.Session();
        var expected = JsonNode.Parse(session.Bundle.Span)!;
        var changed = 0;
        foreach (var element in Objects(expected).Where(e => (string?)(e["type"] as JsonValue) == "Patient" && (string?)(e["identifier"] as JsonObject)?["value"] == "P-0001"))
        {
            element["reference"] = "Patient/7";
            changed++;
        }

        changed.ShouldBeGreaterThan(20);
        JsonNode.DeepEquals(JsonNode.Parse(ChartReferences.Put(session.Bundle.Span, Patient, "Patient/7").Span), expected).ShouldBeTrue();
    }

    private static IEnumerable<JsonObject> Objects(JsonNode? node) => node switch
    {
        JsonArray list => list.ToList().SelectMany(Objects),
        JsonObject element => element.Select(member => member.Value).ToList().SelectMany(Objects).Append(element),
        _ => [],
    };

    private static string Put(string json) => Encoding.UTF8.GetString(ChartReferences.Put(Encoding.UTF8.GetBytes(json), Patient, "Patient/7").Span);
}
