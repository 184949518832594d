using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Delivery.Writing;

namespace HandFhirBridge.Delivery.Tests.Writing;

public sealed class ResourceComparisonTests
{
    [Theory]
    // R4 datatypes.html#decimal: the precision is significant; 0.010 is regarded as different from 0.01.
    [InlineData("""{"value":12.40}""", """{"value":12.4}""", "R.value: 12.40 kept as 12.4")]
    [InlineData("""{"value":12.40}""", """{"value":12.41}""", "R.value: 12.40 changed to 12.41")]
    [InlineData("""{"value":12.40}""", """{"value":"12.40"}""", "R.value: 12.40 changed to \"12.40\"")]
    [InlineData("""{"a":{"b":1}}""", """{"a":{}}""", "R.a.b: dropped")]
    [InlineData("""{"a":[1,2]}""", """{"a":[1]}""", "R.a[1]: dropped")]
    [InlineData("""{"a":[{"c":"x"}]}""", """{"a":[{"c":"y"}]}""", "R.a[0].c: \"x\" changed to \"y\"")]
    [InlineData("""{"a":"x"}""", """{"a":{"b":1}}""", "R.a: nothing changed to nothing")]
    [InlineData("""{"subject":{"reference":"Patient/1"}}""", """{"subject":{"reference":"Patient/2"}}""", "R.subject.reference: \"Patient/1\" changed to \"Patient/2\"")]
    [InlineData("""{"text":{"div":"<div/>"}}""", "{}", "R.text: dropped")]
    [InlineData("""{"note":[{"text":"x"}]}""", """{"note":[{"text":"y"}]}""", "R.note[0].text: \"x\" changed to \"y\"")]
    // R4 questionnaireresponse.html: who answered; only in meta does the server set a source.
    [InlineData("""{"source":{"reference":"Patient/1"}}""", "{}", "R.source: dropped")]
    public void Find_KeptOtherwise_NamesTheElement(string sent, string kept, string expected) =>
        Find(sent, kept).ShouldHaveSingleItem().ShouldBe(expected);

    [Theory]
    [InlineData("""{"id":"1","meta":{"versionId":"1"}}""", """{"id":"2","meta":{"versionId":"9","lastUpdated":"2026-03-02"}}""")]
    [InlineData("""{"a":[1,2]}""", """{"a":[0,2,1]}""")]
    [InlineData("""{"a":1}""", """{"a":1,"b":2}""")]
    [InlineData("""{"meta":{"profile":["p"]}}""", """{"meta":{"profile":["q","p"]}}""")]
    [InlineData("""{"subject":{"reference":"Patient/1"}}""", """{"subject":{"reference":"https://record.example/fhir/Patient/1/_history/4"}}""")]
    [InlineData("""{"issued":"2026-03-02T09:00:00+01:00"}""", """{"issued":"2026-03-02T09:00:00.000+01:00"}""")]
    [InlineData("""{"text":{"div":"<div>a</div>"}}""", """{"text":{"div":"<div> a </div>"}}""")]
    [InlineData("""{"data":"QQ==","hash":"h"}""", """{"url":"Binary/1","hash":"h"}""")]
    public void Find_KeptInTheServersOwnWay_IsNoDifference(string sent, string kept) => Find(sent, kept).ShouldBeEmpty();

    private static List<string> Find(string sent, string kept)
    {
        var one = JsonNode.Parse(sent)!.AsObject();
        one["resourceType"] = "R";
        var other = JsonNode.Parse(kept)!.AsObject();
        other["resourceType"] = "R";
        return [.. ResourceComparison.Find("r", one.ToElement(), other.ToElement()).Select(d => d.ToString().Replace("r (", "", StringComparison.Ordinal).Replace(")", "", StringComparison.Ordinal))];
    }
}
