using System.Globalization;
using System.Xml.Linq;
using HandFhirBridge.Outcomes.Summaries;
using HandFhirBridge.Service.Output;

namespace HandFhirBridge.Service.Outcomes.Web;

/// <summary>A summary as a page: what is asked, a picture, the tables, and what to know beside them. No script, nothing from elsewhere.</summary>
internal static class SummaryPage
{
    private const string Title = "Outcomes of groups";

    /// <summary>The page of an answer.</summary>
    public static string Of(OutcomeSummary summary, string query) => Page(
    [
        Asking(summary.Question),
        new("nav", new XAttribute("aria-label", "The same as files"),
            Link("outcomes/summary.csv" + query, "Groups as CSV"), Link("outcomes/changes.csv" + query, "Changes as CSV"), Link("outcomes/summary.json" + query, "All as JSON")),
        .. SummaryTables.Notes(summary).Take(summary.Demonstration ? 1 : 0).Select(n => new XElement("p", new XAttribute("class", "notice"), n)),
        SummaryPlot.Of(summary) is { } plot ? new XElement("figure", plot, new XElement("figcaption", SummaryPlot.Key)) : null,
        Table("Groups", SummaryTables.GroupColumns(summary.Question), SummaryTables.Groups(summary), summary.Question.By.Length),
        SummaryTables.Changes(summary).ToList() is { Count: > 0 } changes
            ? Table("Change since the first session", SummaryTables.ChangeColumns(summary.Question), changes, summary.Question.By.Length)
            : null,
        new("section", new XElement("h2", "What to know"), SummaryTables.Notes(summary).Select(n => new XElement("p", n))),
    ]);

    /// <summary>A page that says why there is no answer, with the question to be asked anew.</summary>
    public static string Of(string sentence) => Page([new XElement("p", new XAttribute("class", "notice"), new XAttribute("role", "alert"), sentence), Asking(null)]);

    /// <summary>The page that asks for a key.</summary>
    public static string SignIn(bool refused) => Page(
    [
        refused ? new XElement("p", new XAttribute("class", "notice"), new XAttribute("role", "alert"), "This key or token does not let you see outcomes. Ask for one with the scope outcomes or read.") : null,
        new("form", new XAttribute("method", "post"), new XAttribute("action", "outcomes/sign-in"),
            new XElement("p", new XElement("label", new XAttribute("for", "key"), "Key or access token")),
            new XElement("p", new XElement("input", new XAttribute("id", "key"), new XAttribute("name", "key"), new XAttribute("type", "password"), new XAttribute("autocomplete", "off"), new XAttribute("required", "required"))),
            new XElement("p", new XElement("button", "Show"))),
    ]);

    private static XElement Asking(SummaryQuestion? question) => new("form",
        new XAttribute("method", "get"), new XAttribute("action", "outcomes"), new XAttribute("class", "asking"),
        new XElement("fieldset", new XElement("legend", "Tell apart by"),
            SummaryAsking.Dimensions.Select(d => new XElement("label",
                new XElement("input", new XAttribute("type", "checkbox"), new XAttribute("name", "by"), new XAttribute("value", d.Key),
                    (question?.By.Contains(d.Value) ?? SummaryAsking.Usual.Contains(d.Value)) ? new XAttribute("checked", "checked") : null),
                new XElement("span", Words.Of(d.Key))))),
        new XElement("p", new XElement("label", new XAttribute("for", "where"), "Only where (such as task=writing; several with a space between)")),
        new XElement("p", new XElement("input", new XAttribute("id", "where"), new XAttribute("name", "where"), new XAttribute("type", "text"),
            new XAttribute("value", question is null ? "" : string.Join(' ', question.Where.Select(w => $"{SummaryAsking.NameOf(w.Key)}={w.Value}"))))),
        new XElement("p", new XElement("button", "Show")));

    private static XElement Table(string caption, IReadOnlyList<string> columns, IEnumerable<object?[]> rows, int headings) => new("div", new XAttribute("class", "wide"), new XAttribute("tabindex", "0"), new XAttribute("role", "region"), new XAttribute("aria-label", caption),
        new XElement("table",
            new XElement("caption", caption),
            new XElement("thead", new XElement("tr", columns.Select((c, place) => new XElement("th", new XAttribute("scope", "col"), place >= headings ? new XAttribute("class", "number") : null, Words.Of(c.Replace('_', ' ')))))),
            new XElement("tbody", rows.Select(row => new XElement("tr", row.Select((cell, place) => place < headings
                ? new XElement("th", new XAttribute("scope", "row"), Words.Of(Text(cell)))
                : new XElement("td", new XAttribute("class", "number"), Text(cell))))))));

    private static string Text(object? cell) => cell is null ? "–" : Convert.ToString(cell, CultureInfo.InvariantCulture)!;

    private static XElement Link(string address, string words) => new("a", new XAttribute("href", address), words);

    private static string Page(IEnumerable<XElement?> content)
    {
        var page = new XElement("html", new XAttribute("lang", "en"),
            new XElement("head",
                new XElement("meta", new XAttribute("charset", "utf-8")),
                new XElement("meta", new XAttribute("name", "viewport"), new XAttribute("content", "width=device-width, initial-scale=1")),
                new XElement("title", Title),
                new XElement("link", new XAttribute("rel", "icon"), new XAttribute("href", "table/icon.svg"), new XAttribute("type", "image/svg+xml")),
                new XElement("link", new XAttribute("rel", "stylesheet"), new XAttribute("href", "report/report.css"))),
            new XElement("body", new XElement("main", new XElement("h1", Title), content)));
        foreach (var empty in page.Descendants().Where(e => e.IsEmpty && e.Name.Namespace == XNamespace.None && e.Name.LocalName is not ("meta" or "link" or "input")))
        {
            empty.Value = "";
        }

        return "<!DOCTYPE html>\n" + page.ToString(SaveOptions.DisableFormatting);
    }
}
