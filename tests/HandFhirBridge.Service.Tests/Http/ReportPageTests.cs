using System.Diagnostics.CodeAnalysis;
using System.Net;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Http;

/// <summary>The report as people get it: page, PDF and narrative, which R4 wants equivalent (http://hl7.org/fhir/R4/diagnosticreport.html, presentedForm).</summary>
public sealed partial class ReportPageTests(RunningService service) : IClassFixture<RunningService>
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("a4", "595")]
    [InlineData("letter", "612")]
    public async Task Pdf_OfAReport_HasTheNumbersOfThePageAndPassesThePrograms(string paper, string width)
    {
        var key = await DeliverAsync("vandermoss-visit-1");

        var page = XDocument.Parse((await GetAsync($"report/{key}")).Replace("<!DOCTYPE html>\n", ""));
        var pdf = await service.Api.GetByteArrayAsync(new Uri($"report/{key}/{paper}.pdf", UriKind.Relative), Cancellation);
        var again = await service.Api.GetByteArrayAsync(new Uri($"report/{key}/{paper}.pdf", UriKind.Relative), Cancellation);

        pdf.ShouldBe(again);
        pdf.Length.ShouldBeLessThan(150_000);
        using var folder = new DataFolder();
        var file = Path.Combine(folder.Path, "report.pdf");
        await File.WriteAllBytesAsync(file, pdf, Cancellation);
        (await PdfTools.CheckAsync(file, Cancellation)).ShouldContain("No syntax or stream encoding errors found");
        var printed = Decimals(await PdfTools.TextAsync(file, Cancellation));
        printed.ShouldBe(Decimals(Text(page)), ignoreOrder: true);
        printed.Count.ShouldBeGreaterThan(60);
        var info = await PdfTools.InfoAsync(file, Cancellation);
        info.ShouldMatch(@"Title: +Seven-task timed hand-function test: report");
        info.ShouldMatch("Tagged: +yes");
        info.ShouldMatch($@"Page size: +{width} x");
        // A row of pdffonts: name, type, encoding, then embedded, subset and with a map to Unicode.
        (await PdfTools.FontsAsync(file, Cancellation)).Split('\n')[2..].Where(l => l.Length > 0).ShouldAllBe(l => Embedded().IsMatch(l));
        (await PdfTools.OpenedAsync(file, Cancellation)).ShouldContain("/Lang (en)");
    }

    [Fact]
    [SuppressMessage("Security", "CA5350", Justification = "R4 prescribes SHA-1 for Attachment.hash.")]
    public async Task PresentedForm_InTheRecord_IsThePdfOfWhatTheNarrativeSays()
    {
        var key = await DeliverAsync("vandermoss-visit-1");
        var report = await RecordedAsync(key);

        var form = report["presentedForm"]!.AsArray().ShouldHaveSingleItem()!;

        ((string?)form["contentType"], (string?)form["language"]).ShouldBe(("application/pdf", "en"));
        var pdf = Convert.FromBase64String((string)form["data"]!);
        // R4 datatypes.html#Attachment: size in bytes, SHA-1 of the data in base64.
        ((int)form["size"]!, (string?)form["hash"]).ShouldBe((pdf.Length, Convert.ToBase64String(SHA1.HashData(pdf))));
        Decimals(await PrintedAsync(pdf)).ShouldBe(Decimals(Text(XElement.Parse((string)report["text"]!["div"]!))), ignoreOrder: true);
    }

    // The UUID is the example of RFC 4122, section 3; R4 datatypes.html#Identifier writes such values with "urn:uuid:".
    [Theory]
    [InlineData("urn:uuid:f81d4fae-7dec-11d0-a765-00a0c91e6bf6")]
    [InlineData("uuid:1")]
    public async Task PresentedForm_PatientIdentifiedByAUuid_NamesThatOneInItsSubject(string identifier)
    {
        var document = JsonNode.Parse(await File.ReadAllTextAsync(Repository.Example("sessions", "harbour-hand-clinic", "tarrowby-visit-1.json"), Cancellation))!;
        document["sessionId"] = $"of-{identifier.Length}";
        document["patient"]!["identifier"]!["value"] = identifier;

        var key = await Clinic.SubmitAsync(service.Api, document.ToJsonString(), Cancellation);
        var bundle = await Clinic.GetAsync(service.Api, $"sessions/{key}/bundle", Cancellation);

        var report = bundle["entry"]!.AsArray().Select(e => e!["resource"]!).Single(r => (string?)r["resourceType"] == "DiagnosticReport");
        using var folder = new DataFolder();
        var file = Path.Combine(folder.Path, "report.pdf");
        await File.WriteAllBytesAsync(file, Convert.FromBase64String((string)report["presentedForm"]![0]!["data"]!), Cancellation);
        (await PdfTools.InfoAsync(file, Cancellation)).ShouldContain(identifier);
        (await PdfTools.CheckAsync(file, Cancellation)).ShouldContain("No syntax or stream encoding errors found");
    }

    [Fact]
    public async Task PresentedForm_OfALaterSession_ComparesItWithTheOneBefore()
    {
        await DeliverAsync("brackwater-visit-1");
        var key = await DeliverAsync("brackwater-visit-2");
        var form = (await RecordedAsync(key))["presentedForm"]![0]!;
        var page = XDocument.Parse((await GetAsync($"report/{key}")).Replace("<!DOCTYPE html>\n", ""));

        var printed = await PrintedAsync(Convert.FromBase64String((string)form["data"]!));

        printed.ShouldContain("Change since 2026-01-22");
        Decimals(printed).ShouldBe(Decimals(Text(page)), ignoreOrder: true);
    }

    [Fact]
    public async Task Page_OfAReport_SaysWhatTheNarrativeInTheRecordSays()
    {
        var key = await DeliverAsync("vandermoss-visit-1");
        var report = await RecordedAsync(key);
        var narrative = XElement.Parse((string)report["text"]!["div"]!);

        var page = XDocument.Parse((await GetAsync($"report/{key}")).Replace("<!DOCTYPE html>\n", ""));

        Decimals(Text(page)).ShouldBe(Decimals(Text(narrative)), ignoreOrder: true);
    }

    [Fact]
    public async Task Page_OfAReport_IsSentWithHeadersThatKeepItPrivate()
    {
        var key = await DeliverAsync("vandermoss-visit-1");

        using var answer = await service.Api.GetAsync(new Uri($"report/{key}", UriKind.Relative), Cancellation);

        answer.StatusCode.ShouldBe(HttpStatusCode.OK);
        answer.Content.Headers.ContentType!.ToString().ShouldBe("text/html; charset=utf-8");
        answer.Headers.CacheControl!.NoStore.ShouldBeTrue();
        answer.Headers.GetValues("Content-Security-Policy").Single().ShouldContain("default-src 'none'");
        // No style attribute and no script: the policy above would stop them.
        var page = await answer.Content.ReadAsStringAsync(Cancellation);
        page.ShouldNotContain(" style=");
        page.ShouldNotContain("<script");
    }

    [Fact]
    public async Task Page_Trials_WithoutATimeSaySoAndNeverZero()
    {
        var key = await DeliverAsync("pellwick-visit-1");

        var page = XDocument.Parse((await GetAsync($"report/{key}")).Replace("<!DOCTYPE html>\n", ""));

        var picture = page.Descendants().Single(e => e.Name.LocalName == "svg").Descendants().Where(e => e.Name.LocalName == "text").Select(e => e.Value).ToList();
        picture.ShouldContain("stopped: more than 120 s");
        picture.ShouldContain("no time: declined");
        picture.ShouldNotContain(words => Zero().IsMatch(words));
    }

    [Fact]
    public async Task Page_CorrectedThenWithdrawn_SaysSoFirst()
    {
        var document = Example("vandermoss-visit-3");
        var key = await Clinic.SubmitAsync(service.Api, document.ToJsonString(), Cancellation);
        await Clinic.DeliveredAsync(service.Api, key, Cancellation);
        document["revision"] = 2;
        document["trials"]![0]!["seconds"] = 61.25m;
        await Clinic.SubmitAsync(service.Api, document.ToJsonString(), Cancellation);
        await Clinic.DeliveredAsync(service.Api, key, Cancellation);

        var corrected = await GetAsync($"report/{key}");
        Notices(corrected).ShouldContain(n => n.StartsWith("CORRECTED: this is revision 2", StringComparison.Ordinal));
        corrected.ShouldContain("61.25 s");

        using var accepted = await Clinic.PostAsync(
            service.Api, new JsonObject { ["reason"] = "Another patient was tested.", ["by"] = "R. Okafor" }.ToJsonString(), Cancellation, $"sessions/{key}/withdrawal");
        await Clinic.DeliveredAsync(service.Api, key, Cancellation);

        var withdrawn = await GetAsync($"report/{key}");
        Notices(withdrawn).ShouldHaveSingleItem().ShouldStartWith("WITHDRAWN");
        withdrawn.ShouldContain("Another patient was tested.");
        withdrawn.ShouldNotContain("61.25");
        var form = (await RecordedAsync(key))["presentedForm"]!.AsArray().ShouldHaveSingleItem()!;
        var printed = await PrintedAsync(Convert.FromBase64String((string)form["data"]!));
        printed.ShouldContain("WITHDRAWN: this report was entered in error and must not be used.");
        Decimals(printed).ShouldBeEmpty();
    }

    [Fact]
    public async Task Page_OfNoSession_IsNotFound()
    {
        using var answer = await service.Api.GetAsync(new Uri("report/harbour-hand-clinic/nobody", UriKind.Relative), Cancellation);

        answer.StatusCode.ShouldBe(HttpStatusCode.NotFound);
        (await answer.Content.ReadAsStringAsync(Cancellation)).ShouldContain("HFB6003");
    }

    [Fact]
    public async Task Page_OfNoSessionInABrowser_SaysWhatToDoAsAPage()
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri("report/harbour-hand-clinic/nobody", UriKind.Relative));
        request.Headers.Accept.ParseAdd("text/html,application/xhtml+xml,*/*;q=0.8");

        using var answer = await service.Api.SendAsync(request, Cancellation);

        answer.StatusCode.ShouldBe(HttpStatusCode.NotFound);
        answer.Content.Headers.ContentType!.MediaType.ShouldBe("text/html");
        var page = await answer.Content.ReadAsStringAsync(Cancellation);
        page.ShouldContain("The record holds no report of harbour-hand-clinic/nobody yet.");
        page.ShouldContain("HFB6003");
    }

    private async Task<JsonNode> RecordedAsync(string key) =>
        (await Clinic.SearchAsync(service.Process.Record, $"DiagnosticReport?identifier=https://handfhirbridge.example/identifier/report|{key}", Cancellation)).ShouldHaveSingleItem();

    private static async Task<string> PrintedAsync(byte[] pdf)
    {
        using var folder = new DataFolder();
        var file = Path.Combine(folder.Path, "report.pdf");
        await File.WriteAllBytesAsync(file, pdf, Cancellation);
        return await PdfTools.TextAsync(file, Cancellation);
    }

    private async Task<string> DeliverAsync(string name)
    {
        var key = await Clinic.SubmitAsync(service.Api, Example(name).ToJsonString(), Cancellation);
        await Clinic.DeliveredAsync(service.Api, key, Cancellation);
        return key;
    }

    private Task<string> GetAsync(string path) => service.Api.GetStringAsync(new Uri(path, UriKind.Relative), Cancellation);

    private static JsonNode Example(string name) =>
        JsonNode.Parse(File.ReadAllText(Clinic.ExampleSessions.Single(f => Path.GetFileNameWithoutExtension(f) == name)))!;

    private static List<string> Notices(string page) =>
        [.. XDocument.Parse(page.Replace("<!DOCTYPE html>\n", "")).Descendants("p").Where(p => (string?)p.Attribute("class") == "notice").Select(p => p.Value)];

    // Each text node by itself, or words of neighbouring cells would run together.
    private static string Text(XContainer page) => string.Join(' ', page.DescendantNodes().OfType<XText>().Select(t => t.Value));

    // A true minus on paper and on the page is the hyphen of the narrative.
    private static HashSet<string> Decimals(string text) => [.. Decimal().Matches(text.Replace('\u2212', '-')).Select(m => m.Value)];

    [GeneratedRegex(@"(?<![\d.])\d+\.\d+(?![\d.]*\d)")]
    private static partial Regex Decimal();

    [GeneratedRegex(@"^0(\.0+)? s")]
    private static partial Regex Zero();

    [GeneratedRegex(@"DejaVu Sans Condensed.*\byes yes (yes|no)\b")]
    private static partial Regex Embedded();
}
