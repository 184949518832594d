using System.Text.Json.Nodes;
using System.Xml.Linq;

namespace HandFhirBridge.Record.Tests;

// R4 xml.html and http.html#mime-type.
public sealed class XmlTests(RecordServer server) : IClassFixture<RecordServer>
{
    private const string Xml = "application/fhir+xml";
    private static readonly XNamespace Fhir = "http://hl7.org/fhir";

    // The published examples, in and out again: all but comments, white space between elements, and meta.
    [Theory]
    [InlineData("observation-example.xml")]
    [InlineData("observation-example-20minute-apgar-score.xml")]
    [InlineData("organization-1.xml")]
    public async Task Update_PublishedExample_ReadsBackTheSame(string name)
    {
        var example = RecordServer.Example(name);
        var written = XElement.Parse(example);
        var url = $"{written.Name.LocalName}/{written.Element(Fhir + "id")!.Attribute("value")!.Value}";
        var put = await server.SendAsync(HttpMethod.Put, url, example, ("Content-Type", Xml), ("Accept", Xml));
        put.Status.ShouldBeInRange(200, 201, put.Text);

        var read = await server.SendAsync(HttpMethod.Get, url, null, ("Accept", Xml));

        read.Message.Content.Headers.ContentType!.ToString().ShouldBe("application/fhir+xml; charset=utf-8");
        Bare(XElement.Parse(read.Text)).ToString().ShouldBe(Bare(written).ToString());
    }

    // The same example is published in JSON, there without its extension.
    [Fact]
    public async Task Update_InXml_ReadsAsThePublishedJson()
    {
        await server.SendAsync(HttpMethod.Put, "Observation/example", RecordServer.Example("observation-example.xml"), ("Content-Type", Xml));

        var read = (await server.GetAsync("Observation/example")).Json.AsObject();

        ((int)read["extension"]![0]!["valueAge"]!["value"]!).ShouldBe(41);
        read.Remove("extension");
        read.Remove("meta");
        JsonNode.DeepEquals(read, JsonNode.Parse(RecordServer.Example("observation-example.json"))).ShouldBeTrue(read.ToJsonString());
    }

    // R4 datatypes.html#decimal: "the precision of the decimal value has significance"; the published example, every number in its very characters.
    [Fact]
    public async Task Read_Decimals_KeepEveryDigitInXml()
    {
        var example = RecordServer.Example("observation-decimal.json");
        var id = (string)(await server.SendAsync(HttpMethod.Post, "Observation", example)).Json["id"]!;

        var read = XElement.Parse((await server.GetAsync($"Observation/{id}?_format=xml")).Text);

        read.Elements(Fhir + "component").Select(c => c.Element(Fhir + "valueQuantity")!.Element(Fhir + "value")!.Attribute("value")!.Value).ShouldBe(
            JsonNode.Parse(example)!["component"]!.AsArray().Select(c => c!["valueQuantity"]!["value"]!.ToJsonString()));
    }

    [Theory]
    [InlineData("12.40", "12.40")]
    [InlineData("1.00E+3", "1.00E+3")]
    [InlineData("0.000000000000000000000001", "0.000000000000000000000001")]
    [InlineData("-0", "-0")]
    public async Task Write_Decimal_KeepsEveryDigitFromXml(string written, string digits)
    {
        var body = Observation(written);
        var single = await server.SendAsync(HttpMethod.Post, "Observation", body, ("Content-Type", Xml));
        single.Status.ShouldBe(201, single.Text);
        single.Json["valueQuantity"]!["value"]!.ToJsonString().ShouldBe(digits);

        var bundle = $"<Bundle xmlns=\"http://hl7.org/fhir\"><type value=\"transaction\"/><entry><resource>{body}</resource><request><method value=\"POST\"/><url value=\"Observation\"/></request></entry></Bundle>";
        var answer = await server.SendAsync(HttpMethod.Post, "", bundle, ("Content-Type", Xml), ("Accept", Xml), ("Prefer", "return=representation"));
        answer.Status.ShouldBe(200, answer.Text);
        XElement.Parse(answer.Text).Descendants(Fhir + "valueQuantity").Single().Element(Fhir + "value")!.Attribute("value")!.Value.ShouldBe(digits);
    }

    // Whatever is answered can be had in XML; what is refused too.
    [Theory]
    [InlineData("metadata", "CapabilityStatement")]
    [InlineData("Observation?_count=1", "Bundle")]
    [InlineData("_history?_count=1", "Bundle")]
    [InlineData("Observation/$stats?subject=Patient/x&code=a&system=urn:b&statistic=count", "Parameters")]
    [InlineData("Patient/never", "OperationOutcome")]
    [InlineData("Patient?shoe=1", "OperationOutcome")]
    public async Task Read_Anything_CanBeHadInXml(string url, string root)
    {
        var answer = await server.SendAsync(HttpMethod.Get, url, null, ("Accept", Xml));

        XElement.Parse(answer.Text).Name.ShouldBe(Fhir + root);
    }

    [Fact]
    public async Task Validate_ParametersInXml_GivesTheFaultsOfTheResource()
    {
        var answer = await server.SendAsync(
            HttpMethod.Post, "Patient/$validate", "<Parameters xmlns=\"http://hl7.org/fhir\"><parameter><name value=\"resource\"/><resource><Patient><birthDate value=\"2026-02-30\"/></Patient></resource></parameter></Parameters>", ("Content-Type", Xml));

        (answer.Status, answer.Expressions.Single()).ShouldBe((200, "Patient.birthDate"));
    }

    // RFC 9110, 12.5.1: the greater quality is preferred, the more specific range goes before the wider; R4 http.html#mime-type: _format goes before Accept.
    [Theory]
    [InlineData("Patient", "application/fhir+xml, application/fhir+json;q=0.9", Xml)]
    [InlineData("Patient", "application/fhir+xml;q=0.5, application/fhir+json;q=0.9", "application/fhir+json")]
    [InlineData("Patient", "*/*, application/xml", Xml)]
    [InlineData("Patient", "application/fhir+json;q=0, */*", Xml)]
    [InlineData("Patient", "text/html, text/xml;q=0.2", Xml)]
    [InlineData("Patient", "application/fhir+xml; fhirVersion=4.0", Xml)]
    [InlineData("Patient", "*/*", "application/fhir+json")]
    [InlineData("Patient?_format=xml", "application/fhir+json", Xml)]
    [InlineData("Patient?_format=application/fhir%2Bxml", "", Xml)]
    [InlineData("Patient?_format=application/fhir+xml", "", Xml)]
    [InlineData("Patient?_format=json", "application/fhir+xml", "application/fhir+json")]
    public async Task Search_InFormat_IsNegotiated(string url, string accept, string format)
    {
        var answer = await server.SendAsync(HttpMethod.Get, url, null, accept.Length > 0 ? [("Accept", accept)] : []);

        answer.Status.ShouldBe(200, answer.Text);
        answer.Message.Content.Headers.ContentType!.MediaType.ShouldBe(format);
    }

    [Theory]
    [InlineData("xml", 200, "application/fhir+xml")]
    [InlineData("ttl", 406, "application/fhir+json")]
    public async Task Search_ByPost_TakesTheFormatOfItsForm(string format, int status, string type)
    {
        var answer = await server.SendAsync(HttpMethod.Post, "Patient/_search", $"_format={format}", ("Content-Type", "application/x-www-form-urlencoded"));

        (answer.Status, answer.Message.Content.Headers.ContentType!.MediaType).ShouldBe((status, type));
    }

    // R4 http.html#create: 400 where a resource "could not be parsed or failed basic FHIR validation rules".
    [Theory]
    [InlineData("<Patient xmlns=\"http://hl7.org/fhir\"><unknown value=\"1\"/></Patient>", "Patient.unknown")]
    [InlineData("<Patient xmlns=\"http://hl7.org/fhir\"><birthDate value=\"2026-02-30\"/></Patient>", "Patient.birthDate")]
    [InlineData("<Patient xmlns=\"http://hl7.org/fhir\">text<active value=\"true\"/>text</Patient>", "")]
    [InlineData("<Organization xmlns=\"http://hl7.org/fhir\"><text>words<status value=\"generated\"/>words<div xmlns=\"http://www.w3.org/1999/xhtml\">w</div>words</text>words</Organization>", "")]
    [InlineData("<Patient xmlns=\"http://hl7.org/fhir\"><contained/></Patient>", "")]
    [InlineData("<Patient xmlns=\"http://hl7.org/fhir\"><contained><Patient/><Patient/></contained></Patient>", "")]
    [InlineData("<Patient xmlns=\"http://hl7.org/fhir\"><contained>x</contained></Patient>", "")]
    [InlineData("<Patient xmlns=\"http://hl7.org/fhir\"><contained><x xmlns=\"urn:x\"/></contained></Patient>", "")]
    [InlineData("<Patient xmlns=\"http://hl7.org/fhir\"><active/></Patient>", "")]
    [InlineData("<Patient xmlns=\"http://hl7.org/fhir\"><active xmlns=\"urn:x\" value=\"true\"/></Patient>", "")]
    [InlineData("<Patient xmlns=\"http://hl7.org/fhir\"><active value=\"true\" x=\"1\"/></Patient>", "")]
    [InlineData("<Patient xmlns=\"http://hl7.org/fhir\"><text><status value=\"generated\"/><div>w</div></text></Patient>", "")]
    [InlineData("<Patient xmlns=\"http://hl7.org/fhir\"><name value=\"x\"/></Patient>", "")]
    [InlineData("<Patient xmlns=\"http://hl7.org/fhir\"><?p i?><active value=\"perhaps\"/></Patient>", "")]
    [InlineData("<Patient xmlns=\"http://hl7.org/fhir\"><multipleBirthInteger value=\"1.5\"/></Patient>", "")]
    // R4 narrative.html, invariant txt-1: basic formatting elements alone; in JSON a script is refused too.
    [InlineData("<Patient xmlns=\"http://hl7.org/fhir\"><text><status value=\"generated\"/><div xmlns=\"http://www.w3.org/1999/xhtml\"><script/></div></text></Patient>", "")]
    [InlineData("<Patient><active value=\"true\"/></Patient>", "")]
    [InlineData("<Patient xmlns=\"http://hl7.org/fhir\"><active value=\"true\"/>", "")]
    [InlineData("{\"resourceType\":\"Patient\"}", "")]
    [InlineData("", "")]
    // R4 security.html: external entities in XML "can be used to access and transmit content"; none is read.
    [InlineData("<!DOCTYPE p [<!ENTITY e SYSTEM \"file:///etc/hostname\">]><Patient xmlns=\"http://hl7.org/fhir\"><language value=\"&e;\"/></Patient>", "")]
    public async Task Create_Malformed_IsRefusedWithItsPlace(string body, string place)
    {
        var answer = await server.SendAsync(HttpMethod.Post, "Patient", body, ("Content-Type", Xml));

        answer.Status.ShouldBe(400, answer.Text);
        ((string)answer.Json["resourceType"]!).ShouldBe("OperationOutcome");
        (place.Length == 0 || answer.Expressions.Contains(place)).ShouldBeTrue(answer.Text);
    }

    // What goes down by recursion must not be led to the end of the stack.
    [Fact]
    public async Task Create_TooDeep_IsRefused()
    {
        const int depth = 3000;
        var nested = string.Concat(Enumerable.Repeat("<extension url=\"u\">", depth)) + string.Concat(Enumerable.Repeat("</extension>", depth));

        (await server.SendAsync(HttpMethod.Post, "Patient", $"<Patient xmlns=\"http://hl7.org/fhir\">{nested}</Patient>", ("Content-Type", Xml))).Status.ShouldBe(400);
    }

    // A number that the parser cannot hold would be stored as another one.
    [Fact]
    public async Task Create_NumberBeyondTheParser_IsRefused() =>
        (await server.SendAsync(HttpMethod.Post, "Observation", Observation("-1.000000000000000000E+245"), ("Content-Type", Xml))).Status.ShouldBe(400);

    private static string Observation(string value) =>
        $"<Observation xmlns=\"http://hl7.org/fhir\"><status value=\"final\"/><code><text value=\"x\"/></code><valueQuantity><value value=\"{value}\"/><unit value=\"s\"/></valueQuantity></Observation>";

    private static XElement Bare(XElement element)
    {
        element.Elements(Fhir + "meta").Remove();
        element.DescendantNodes().OfType<XComment>().ToList().ForEach(c => c.Remove());
        // R4 datatypes.html#string: "Leading and Trailing whitespace is allowed, but SHOULD be removed when using the XML format"; one example has it.
        element.Descendants().Attributes("value").ToList().ForEach(v => v.Value = v.Value.Trim());
        return element;
    }
}
