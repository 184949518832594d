using HandFhirBridge.Service.Auditing;
using HandFhirBridge.Service.Pages;
using HandFhirBridge.Service.Reports.Printing;
using HandFhirBridge.Service.Reports.Web;
using HandFhirBridge.Service.Reports;
using HandFhirBridge.Service.Security;

namespace HandFhirBridge.Service.Http;

/// <summary>Reports for people: a page and a PDF, both made from the record at each request.</summary>
public static class ReportEndpoints
{
    /// <summary>Maps <c>/report</c>.</summary>
    public static void MapReports(this IEndpointRouteBuilder endpoints)
    {
        var reports = endpoints.MapGroup("/report").WithTags("Reports");
        reports.MapGet("/" + ReportPage.Stylesheet, StylesheetOf).AllowAnonymous().ExcludeFromDescription();
        reports.MapGet("/{site}/{id}", PageAsync).RequireAuthorization(Scopes.Read).Audit("read")
            .WithSummary("The report as a page, made from the resources as they stand in the record; a withdrawn one says so.")
            .Produces<string>(StatusCodes.Status200OK, "text/html").ProducesOutcome(404, 502);
        foreach (var paper in Enum.GetValues<PaperSize>())
        {
            reports.MapGet($"/{{site}}/{{id}}/{ReportPage.NameOf(paper)}", (string site, string id, HttpContext context, RecordedReports recorded, CancellationToken cancellation) =>
                    PdfAsync(site, id, paper, context, recorded, cancellation))
                .RequireAuthorization(Scopes.Read).Audit("read").WithSummary($"The same as a PDF on {paper} paper.")
                .Produces<byte[]>(StatusCodes.Status200OK, "application/pdf").ProducesOutcome(404, 502);
        }
    }

    private static IResult StylesheetOf(HttpContext context)
    {
        var asset = PageAssets.Report.Find(ReportPage.Stylesheet)!;
        PageEndpoints.WriteHeaders(context.Response.Headers);
        return Results.Bytes(asset.Bytes, asset.ContentType, entityTag: new($"\"{asset.Tag}\""));
    }

    private static async Task<IResult> PageAsync(string site, string id, HttpContext context, RecordedReports recorded, CancellationToken cancellation) =>
        await ReportPage.HtmlAsync(context, await recorded.FindContentsAsync(site, id, cancellation));

    private static async Task<IResult> PdfAsync(
        string site, string id, PaperSize paper, HttpContext context, RecordedReports recorded, CancellationToken cancellation) =>
        ReportPage.Pdf(context, await recorded.FindContentsAsync(site, id, cancellation), paper);
}
