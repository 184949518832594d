using System.Xml;
using System.Xml.Linq;
using Hl7.Fhir.Serialization;
using static Hl7.Fhir.Model.OperationOutcome;

namespace HandFhirBridge.Record.Http;

/// <summary>A resource in XML (R4 xml.html).</summary>
/// <param name="root">Its root element.</param>
internal sealed class XmlBody(XElement root) : WrittenBody
{
    // As deep as JSON may be here; the SDK goes down by recursion, and a stack that overflows ends the process.
    private const int MaxDepth = 64;

    private static readonly FhirXmlDeserializer Strict = new(new DeserializerSettings().UsingMode(DeserializationMode.Strict));

    // Nothing outside of the body is fetched, and nothing within it is expanded (R4 security.html#narrative).
    private static readonly XmlReaderSettings Options = new() { DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null };

    public override string Type => root.Name.Namespace == XmlText.Fhir ? root.Name.LocalName : "";

    public static XmlBody Of(ReadOnlyMemory<byte> utf8)
    {
        try
        {
            var bytes = utf8.ToArray();
            using (var depth = XmlReader.Create(new MemoryStream(bytes), Options))
            {
                while (depth.Read())
                {
                    if (depth.Depth > MaxDepth)
                    {
                        throw RecordRefusal.BadRequest($"The body is more than {MaxDepth} elements deep.");
                    }
                }
            }

            using var reader = XmlReader.Create(new MemoryStream(bytes), Options);
            return new(XDocument.Load(reader, LoadOptions.PreserveWhitespace | LoadOptions.SetLineInfo).Root!);
        }
        catch (XmlException broken)
        {
            // The message of the exception may quote the body.
            throw RecordRefusal.BadRequest($"The body is not XML that is read here (a DTD is not): line {broken.LineNumber}, position {broken.LinePosition}.");
        }
    }

    public override CheckedResource Check()
    {
        // The SDK does not look at all of it.
        if (root.DescendantNodes().OfType<XText>().FirstOrDefault(t => t.Parent!.Name.Namespace == XmlText.Fhir && !string.IsNullOrWhiteSpace(t.Value)) is { Parent: { } around })
        {
            return new(null, default, [RecordRefusal.Issue(IssueSeverity.Error, IssueType.Structure, $"Text stands within the element {around.Name.LocalName}; in FHIR a value stands in the attribute value.")]);
        }

        // From text, since a reader over a tree takes the white space between elements for text.
        using var reader = XmlReader.Create(new StringReader(root.ToString(SaveOptions.DisableFormatting)), Options);
        Strict.TryDeserializeResource(reader, out var resource, out var found);
        var faults = Faults.Of(found, resource, largeDecimals: false);
        // What is checked in JSON alone, such as scripts in a narrative, is checked here too.
        return resource is null || faults.Count > 0 ? new(resource, default, faults) : new JsonBody(XmlText.Json(resource, root)).Check();
    }

    public override (WrittenBody? Resource, WrittenBody? Others) Unwrap()
    {
        var others = new XElement(root);
        var found = others.Elements(XmlText.Fhir + "parameter").FirstOrDefault(p => (string?)p.Element(XmlText.Fhir + "name")?.Attribute("value") == "resource");
        if (found is null)
        {
            return (null, this);
        }

        found.Remove();
        var resource = found.Element(XmlText.Fhir + "resource")?.Elements().FirstOrDefault();
        return (resource is null ? null : new XmlBody(new XElement(resource)), others.Elements(XmlText.Fhir + "parameter").Any() ? new XmlBody(others) : null);
    }
}
