using System.Xml;
using System.Xml.Linq;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>Builds narratives as XML trees, so that whatever a therapist wrote stays text (R4 narrative.html: no scripts, forms or external content).</summary>
internal static class Xhtml
{
    private static readonly XNamespace Space = "http://www.w3.org/1999/xhtml";

    /// <summary>A narrative that says what the resource's data say, made by the program.</summary>
    public static Narrative Narrative(params IEnumerable<XElement> content) => new()
    {
        Status = Hl7.Fhir.Model.Narrative.NarrativeStatus.Generated,
        Div = new XElement(Space + "div", content).ToString(SaveOptions.DisableFormatting),
    };

    public static XElement Heading(string text) => Element("h3", text);

    public static XElement Paragraph(string text) => Element("p", text);

    /// <summary>A paragraph that must not be overlooked.</summary>
    public static XElement Strong(string text) => new(Space + "p", Element("b", text));

    /// <summary>A table with a heading row; the first cell of each row is the row's heading.</summary>
    public static XElement Table(string caption, string[] headings, IEnumerable<string[]> rows) =>
        new(Space + "table",
            Element("caption", caption),
            new XElement(Space + "thead", new XElement(Space + "tr", headings.Select(h => Element("th", h)))),
            new XElement(Space + "tbody", rows.Select(Row)));

    private static XElement Row(string[] cells) =>
        new(Space + "tr", cells.Select((cell, place) => Element(place == 0 ? "th" : "td", cell)));

    private static XElement Element(string name, string text) => new(Space + name, Printable(text));

    // A few code points are text in JSON but not in XML; one of them must not stop a report.
    private static string Printable(string text) =>
        text.All(c => XmlConvert.IsXmlChar(c) || char.IsSurrogate(c)) ? text : new([.. text.Select(c => XmlConvert.IsXmlChar(c) || char.IsSurrogate(c) ? c : '\uFFFD')]);
}
