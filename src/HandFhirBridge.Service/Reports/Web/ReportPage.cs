using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Service.Http;
using HandFhirBridge.Service.Pages;
using HandFhirBridge.Service.Reports.Contents;
using HandFhirBridge.Service.Reports.Printing;

namespace HandFhirBridge.Service.Reports.Web;

/// <summary>Answers with a report as a page or as a PDF, wherever it is asked for.</summary>
internal static class ReportPage
{
    /// <summary>File name of the stylesheet.</summary>
    public const string Stylesheet = "report.css";

    /// <summary>Name under which the PDF of a size lies below the page.</summary>
    public static string NameOf(PaperSize paper) => $"{WireName.Of(paper)}.pdf";

    /// <summary>The page, with links to its PDFs; or why there is none.</summary>
    public static async Task<IResult> HtmlAsync(HttpContext context, Outcome<ReportContents> found)
    {
        if (found.Value is not { } contents)
        {
            if (!ProblemPage.IsAskedBy(context.Request))
            {
                return FhirResults.Refused(found.Problems);
            }

            await ProblemPage.WriteAsync(context, found.Problems[0], ProblemPage.RootOf(context.Request));
            return Results.Empty;
        }

        PageEndpoints.WritePrivateHeaders(context.Response.Headers);
        var root = ProblemPage.RootOf(context.Request);
        var here = Uri.EscapeDataString(context.Request.Path.Value!.Split('/')[^1]);
        return Results.Text(
            HtmlReport.Of(contents, Enum.GetValues<PaperSize>().Select(paper => ($"PDF, {paper}", $"{here}/{NameOf(paper)}")), $"{root}report/{Stylesheet}", $"{root}table/icon.svg"),
            "text/html; charset=utf-8");
    }

    /// <summary>The PDF; or why there is none.</summary>
    public static IResult Pdf(HttpContext context, Outcome<ReportContents> found, PaperSize paper)
    {
        if (found.Value is not { } contents)
        {
            return FhirResults.Refused(found.Problems);
        }

        PageEndpoints.WritePrivateHeaders(context.Response.Headers);
        return Results.Bytes(PdfReport.Of(contents, paper), "application/pdf");
    }
}
