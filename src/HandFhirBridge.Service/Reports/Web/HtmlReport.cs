using System.Xml;
using System.Xml.Linq;
using HandFhirBridge.Service.Reports.Contents;
using HandFhirBridge.Service.Reports.Pictures;

namespace HandFhirBridge.Service.Reports.Web;

/// <summary>The contents of a report as a page: no script, no inline style, nothing from elsewhere. Built as a tree, so that whatever a therapist wrote stays text.</summary>
internal static class HtmlReport
{
    private const string PictureTitle = "Times of both hands beside the norm";

    /// <summary>The page.</summary>
    /// <param name="contents">What it says.</param>
    /// <param name="links">Other forms of the report: words and relative address.</param>
    /// <param name="stylesheet">Relative address of the stylesheet.</param>
    /// <param name="icon">Relative address of the icon; without one a browser asks for it elsewhere and complains.</param>
    public static string Of(ReportContents contents, IEnumerable<(string Words, string Address)> links, string stylesheet, string icon)
    {
        var page = new XElement("html", new XAttribute("lang", "en"),
            new XElement("head",
                new XElement("meta", new XAttribute("charset", "utf-8")),
                new XElement("meta", new XAttribute("name", "viewport"), new XAttribute("content", "width=device-width, initial-scale=1")),
                // The tab and the history of a shared computer show the title: no patient in it.
                Text("title", contents.Title),
                new XElement("link", new XAttribute("rel", "icon"), new XAttribute("href", icon), new XAttribute("type", "image/svg+xml")),
                new XElement("link", new XAttribute("rel", "stylesheet"), new XAttribute("href", stylesheet))),
            new XElement("body",
                new XElement("main",
                    Text("h1", contents.Title),
                    contents.Notices.Select(notice => Classed("p", "notice", notice)),
                    Links(links),
                    contents.Sections.Select(Section)),
                new XElement("footer", Text("p", contents.Footer))));
        return "<!DOCTYPE html>\n" + Markup(page);
    }

    private static XElement? Links(IEnumerable<(string Words, string Address)> links)
    {
        var items = links.Select(link => new XElement("a", new XAttribute("href", link.Address), link.Words)).ToList();
        return items.Count == 0 ? null : new("nav", new XAttribute("aria-label", "Other forms of this report"), items);
    }

    private static XElement Section(ReportSection section) =>
        new("section", section.Heading is { } heading ? Text("h2", heading) : null, section.Blocks.Select(Block));

    private static XElement Block(ReportBlock block) => block switch
    {
        Paragraph paragraph => Text("p", paragraph.Text),
        Points points => new("dl", points.Items.SelectMany(p => new[] { Text("dt", p.Name), Text("dd", p.Text) })),
        Table table => TableOf(table),
        Picture picture => new("figure", SvgPicture.Of(picture.Report, PictureTitle), Text("figcaption", TrialPicture.Key(picture.Report))),
        _ => throw new InvalidOperationException($"No way to show a {block.GetType().Name}."),
    };

    // On a phone the cells stand below each other; the roles keep it a table for whoever does not see it.
    private static XElement TableOf(Table table) => new("table", Role("table"),
        Text("caption", table.Caption),
        new XElement("thead", Role("rowgroup"), new XElement("tr", Role("row"), table.Columns.Select(c =>
            new XElement("th", Role("columnheader"), new XAttribute("scope", "col"), c.Number ? new XAttribute("class", "number") : null, Printable(c.Heading))))),
        new XElement("tbody", Role("rowgroup"), table.Rows.Select(row =>
            new XElement("tr", Role("row"), row.Marked ? new XAttribute("class", "marked") : null, row.Cells.Select((cell, place) => Cell(table.Columns[place], cell, place == 0))))));

    private static XElement Cell(Column column, string text, bool heading) => heading
        ? new("th", Role("rowheader"), new XAttribute("scope", "row"), Printable(text))
        : new("td", Role("cell"), new XAttribute("data-column", column.Heading), column.Number ? new XAttribute("class", "number") : null, new XElement("span", Printable(text)));

    private static XAttribute Role(string role) => new("role", role);

    private static XElement Classed(string name, string css, string text) => new(name, new XAttribute("class", css), Printable(text));

    private static XElement Text(string name, string text) => new(name, Printable(text));

    private static string Markup(XElement page)
    {
        // HTML knows void elements by name and reads <meta/> and SVG's empty elements as they stand; an element of ours that may be empty is closed in full.
        foreach (var empty in page.Descendants().Where(e => e.IsEmpty && e.Name.Namespace == XNamespace.None && e.Name.LocalName is not ("meta" or "link")))
        {
            empty.Value = "";
        }

        return page.ToString(SaveOptions.DisableFormatting);
    }

    private static string Printable(string text) =>
        text.All(c => XmlConvert.IsXmlChar(c) || char.IsSurrogate(c)) ? text : new([.. text.Select(c => XmlConvert.IsXmlChar(c) || char.IsSurrogate(c) ? c : '\uFFFD')]);
}
