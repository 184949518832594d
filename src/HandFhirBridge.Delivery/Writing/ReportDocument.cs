using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Fhir.Mapping;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>
/// The report as a DocumentReference, for targets that take no DiagnosticReport: attached files of the report first, then its
/// narrative as a page that stands by itself. Elements follow US Core's DocumentReference, so that its servers take it.
/// </summary>
public static class ReportDocument
{
    /// <summary>Status, in R4 the same word for reports and documents.</summary>
    private const string Withdrawn = "entered-in-error";

    private const string Type = "DocumentReference";
    private const string Loinc = "http://loinc.org";
    private const string UsCoreCategory = "http://hl7.org/fhir/us/core/CodeSystem/us-core-documentreference-category";
    private const string IheFormats = "http://ihe.net/fhir/ValueSet/IHE.FormatCode.codesystem";
    private const string Title = "Timed hand-function test: report";

    /// <summary>Makes the document of a session.</summary>
    /// <param name="report">Its DiagnosticReport.</param>
    /// <param name="revision">Its revision, from 1.</param>
    /// <param name="type">LOINC code of the document's type.</param>
    public static JsonObject Of(JsonObject report, int revision, string type)
    {
        ArgumentNullException.ThrowIfNull(report);
        var identifier = Identifier(report.Objects("identifier").First().Text("value")!, revision);
        var withdrawn = report.Text("status") == Withdrawn;
        var document = new JsonObject
        {
            ["resourceType"] = Type,
            ["id"] = ResourceIds.Of(IdentifierSystems.Document, identifier),
            ["meta"] = Meta(report),
            ["identifier"] = new JsonArray(new JsonObject { ["system"] = IdentifierSystems.Document, ["value"] = identifier }),
            // A search for current documents must not find the notice of a withdrawal as if it were a report.
            ["status"] = withdrawn ? Withdrawn : "current",
            ["docStatus"] = withdrawn ? Withdrawn : revision > 1 ? "amended" : "final",
            ["type"] = new JsonObject
            {
                ["coding"] = new JsonArray(new JsonObject { ["system"] = Loinc, ["code"] = type }),
                ["text"] = Title,
            },
            ["category"] = new JsonArray(new JsonObject
            {
                ["coding"] = new JsonArray(new JsonObject { ["system"] = UsCoreCategory, ["code"] = "clinical-note" }),
            }),
            ["subject"] = report["subject"]?.DeepClone(),
            ["date"] = report["issued"]?.DeepClone(),
            ["author"] = report["performer"]?.DeepClone(),
            ["authenticator"] = report.Objects("resultsInterpreter").FirstOrDefault()?.DeepClone(),
            ["custodian"] = report.Objects("performer").FirstOrDefault(p => p.Text("type") == "Organization")?.DeepClone(),
            ["description"] = Title,
            ["content"] = new JsonArray([.. Attachments(report).Select(Content)]),
            ["context"] = Context(report),
        };
        RemoveMissing(document);
        return document;
    }

    /// <summary>What the document of another revision is searched by.</summary>
    /// <param name="report">The session's DiagnosticReport, or its document of any revision.</param>
    /// <param name="revision">Revision, from 1.</param>
    internal static SessionEntry ToFind(SessionEntry report, int revision)
    {
        var named = report.Identifier!.Value.Value;
        var session = report.Type == Type ? named[..named.LastIndexOf('/')] : named;
        var identifier = new JsonObject { ["system"] = IdentifierSystems.Document, ["value"] = Identifier(session, revision) };
        var resource = new JsonObject { ["resourceType"] = Type, ["identifier"] = new JsonArray(identifier) };
        return new(report.Index, Type, report.Id, report.FullUrl, resource.ToElement());
    }

    private static string Identifier(string session, int revision) => string.Create(CultureInfo.InvariantCulture, $"{session}/{revision}");

    /// <summary>Labels and tags, which say among others that data are invented; profiles are those of another type.</summary>
    private static JsonObject? Meta(JsonObject report)
    {
        var meta = new JsonObject { ["security"] = report.Object("meta")?["security"]?.DeepClone(), ["tag"] = report.Object("meta")?["tag"]?.DeepClone() };
        RemoveMissing(meta);
        return meta.Count == 0 ? null : meta;
    }

    private static JsonObject Context(JsonObject report)
    {
        var context = new JsonObject
        {
            ["encounter"] = report["encounter"] is { } encounter ? new JsonArray(encounter.DeepClone()) : null,
            ["period"] = report["effectivePeriod"]?.DeepClone(),
            ["related"] = report["basedOn"]?.DeepClone(),
        };
        RemoveMissing(context);
        return context;
    }

    private static IEnumerable<JsonObject> Attachments(JsonObject report) =>
        report.Objects("presentedForm").Select(form => (JsonObject)form.DeepClone()).Append(Page(report));

    private static JsonObject Content(JsonObject attachment) => new()
    {
        ["attachment"] = attachment,
        ["format"] = new JsonObject { ["system"] = IheFormats, ["code"] = "urn:ihe:iti:xds:2017:mimeTypeSufficient" },
    };

    [SuppressMessage("Security", "CA5350", Justification = "R4 prescribes SHA-1 for Attachment.hash; it tells copies apart, it does not protect.")]
    private static JsonObject Page(JsonObject report)
    {
        var page = Encoding.UTF8.GetBytes(
            $"<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"/><title>{WebUtility.HtmlEncode(Title)}</title></head>\n<body>{report.Object("text").Text("div")}</body></html>\n");
        return new()
        {
            ["contentType"] = "text/html",
            ["language"] = "en",
            ["data"] = Convert.ToBase64String(page),
            ["size"] = page.Length,
            ["hash"] = Convert.ToBase64String(SHA1.HashData(page)),
            ["title"] = Title,
            ["creation"] = report["issued"]?.DeepClone(),
        };
    }

    private static void RemoveMissing(JsonObject element)
    {
        foreach (var (name, _) in element.Where(member => member.Value is null).ToList())
        {
            element.Remove(name);
        }
    }
}
