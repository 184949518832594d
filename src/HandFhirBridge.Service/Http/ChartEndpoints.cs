using System.Net;
using System.Net.Http.Headers;
using System.Security.Claims;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Reading;
using HandFhirBridge.Service.Auditing;
using HandFhirBridge.Service.Charts;
using HandFhirBridge.Service.Charts.Smart;
using HandFhirBridge.Service.Pages;
using HandFhirBridge.Service.Pipeline;
using HandFhirBridge.Service.Reports;
using HandFhirBridge.Service.Reports.Contents;
using HandFhirBridge.Service.Reports.Printing;
using HandFhirBridge.Service.Reports.Web;
using Hl7.Fhir.Model;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.OAuth;
using Task = System.Threading.Tasks.Task;

namespace HandFhirBridge.Service.Http;

/// <summary>The chart page opened from a record: SMART App Launch, and the course read with the user's own access.</summary>
public static class ChartEndpoints
{
    private const string Root = "../";
    private const string Reports = "report/{report}";

    /// <summary>Maps <c>/chart/launch</c> and <c>/chart/course</c>; the answer of the sign-in comes to <c>/chart/callback</c>.</summary>
    public static void MapChart(this IEndpointRouteBuilder endpoints)
    {
        var chart = endpoints.MapGroup("/chart").AllowAnonymous().WithTags("Chart");
        chart.MapGet("/launch", LaunchAsync)
            .WithSummary("SMART App Launch: iss and launch from a record, or iss alone (none, where one server is set) for a standalone launch.");
        chart.MapGet("/course", CourseAsync).Audit("search-type").WithSummary("The course of the patient open in the record, read with the user's own access.")
            .Produces<CourseView>().ProducesOutcome(401, 403, 502);
        chart.MapGet("/report/{id}", (string id, HttpContext context, IHttpClientFactory clients, RecordedReports recorded, CancellationToken cancellation) =>
                ReportAsync(id, context, clients, recorded, found => ReportPage.HtmlAsync(context, found), cancellation))
            .Audit("read").WithSummary("One report of the patient open in the record, by the DiagnosticReport's id there, read with the user's own access.")
            .Produces<string>(StatusCodes.Status200OK, "text/html").ProducesOutcome(401, 403, 404, 502);
        foreach (var paper in Enum.GetValues<PaperSize>())
        {
            chart.MapGet($"/report/{{id}}/{ReportPage.NameOf(paper)}", (string id, HttpContext context, IHttpClientFactory clients, RecordedReports recorded, CancellationToken cancellation) =>
                    ReportAsync(id, context, clients, recorded, found => Task.FromResult(ReportPage.Pdf(context, found, paper)), cancellation))
                .Audit("read").WithSummary($"The same as a PDF on {paper} paper.")
                .Produces<byte[]>(StatusCodes.Status200OK, "application/pdf").ProducesOutcome(401, 403, 404, 502);
        }
    }

    private static async Task LaunchAsync(HttpContext context, string? iss, string? launch, SmartDiscovery discovery)
    {
        if (discovery.Server(iss) is not { } server)
        {
            await ProblemPage.WriteAsync(context, ChartProblems.UnknownServer.At(
                "iss", iss is null ? "No record was named, and not exactly one is set up." : "The record that opened this page is not set up for it.", iss), Root);
            return;
        }

        var found = await discovery.FindAsync(server, context.RequestAborted);
        if (found.Value is not { } endpoints)
        {
            await ProblemPage.WriteAsync(context, found.Problems[0], Root);
            return;
        }

        // Relative: it holds behind a path prefix too.
        var properties = new OAuthChallengeProperties { RedirectUri = "./#opened=1" };
        properties.Items[SmartItems.Server] = server.BaseUrl;
        properties.Items[SmartItems.Issuer] = endpoints.Issuer;
        properties.Items[SmartItems.Authorize] = endpoints.Authorize.AbsoluteUri;
        properties.Items[SmartItems.Token] = endpoints.Token.AbsoluteUri;
        properties.Items[SmartItems.Launch] = launch;
        properties.Items[SmartItems.Scope] = server.Scope;
        properties.Scope = [string.IsNullOrEmpty(launch) ? "launch/patient" : "launch", .. server.Scope.Split(' ', StringSplitOptions.RemoveEmptyEntries)];
        await context.ChallengeAsync(SmartRegistration.SignIn, properties);
    }

    private static Task<IResult> CourseAsync(HttpContext context, IHttpClientFactory clients, CourseReader courses, CancellationToken cancellation) =>
        OpenedAsync(context, clients, problem => Task.FromResult(FhirResults.Refused(problem)), async (record, patientId, user) =>
        {
            var patient = PatientAsync(record, patientId, cancellation);
            var course = await courses.ReadAsync(record, patientId, cancellation);
            return Results.Ok(CourseView.Of(course, await patient, user.FindFirst(SmartItems.Report)?.Value, Reports));
        });

    private static Task<IResult> ReportAsync(
        string id, HttpContext context, IHttpClientFactory clients, RecordedReports recorded, Func<Outcome<ReportContents>, Task<IResult>> answer,
        CancellationToken cancellation) =>
        OpenedAsync(context, clients, problem => answer(new(null, [problem])), async (record, patientId, user) =>
        {
            Audited.Concerns(context, user.FindFirst(SmartItems.Server)!.Value, $"DiagnosticReport/{id}");
            // The access may reach other charts; the page shows the one that was opened.
            return await StandingAsync<DiagnosticReport>(record, id, cancellation) is { } report && RecordReader.IsOf(report.Subject, patientId)
                ? await answer(await recorded.ContentsAsync(record, report, cancellation))
                : await answer(new(null, [ServiceProblems.NotInRecord.At("", "The chart that was opened holds no such report.")]));
        });

    private static async Task<IResult> OpenedAsync(
        HttpContext context, IHttpClientFactory clients, Func<Problem, Task<IResult>> refuse, Func<RecordReader, string, ClaimsPrincipal, Task<IResult>> read)
    {
        context.Response.Headers.CacheControl = "no-store";
        var access = await context.AuthenticateAsync(SmartRegistration.Session);
        if (access.Principal is not { } user || access.Properties?.GetTokenValue("access_token") is not { } token)
        {
            return await refuse(ChartProblems.AccessEnded.At("", "Access to the record has ended, or was never given in this browser."));
        }

        using var http = clients.CreateClient(nameof(ChartEndpoints));
        http.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", token);
        var record = new RecordReader(http, new Uri(user.FindFirst(SmartItems.Server)!.Value.TrimEnd('/') + "/"));
        var patientId = user.FindFirst(SmartItems.Patient)!.Value;
        Audited.Concerns(context, user.FindFirst(SmartItems.Server)!.Value, $"Patient/{patientId}");
        try
        {
            return await read(record, patientId, user);
        }
        catch (Exception failed) when (failed is RecordReadException or HttpRequestException)
        {
            return await refuse((failed as RecordReadException)?.Status switch
            {
                HttpStatusCode.Unauthorized => ChartProblems.AccessEnded.At("", "The record no longer accepts this access."),
                HttpStatusCode.Forbidden => ChartProblems.ScopeMissing.At("", $"The record does not let this page read all it needs. {failed.Message}"),
                _ => ServiceProblems.TargetUnreadable.At("", $"The record cannot be read: {failed.Message}"),
            });
        }
    }

    // Whose chart it is comes from the record's own screen too; a user who may not read the Patient still sees the course.
    private static async Task<CoursePatient?> PatientAsync(RecordReader record, string id, CancellationToken cancellation)
    {
        try
        {
            return await StandingAsync<Patient>(record, id, cancellation) is { } patient ? CoursePatient.Of(patient) : null;
        }
        catch (RecordReadException refused) when (refused.Status is HttpStatusCode.Forbidden)
        {
            return null;
        }
    }

    private static async Task<T?> StandingAsync<T>(RecordReader record, string id, CancellationToken cancellation)
        where T : Resource
    {
        try
        {
            return await record.ReadAsync<T>(id, cancellation);
        }
        catch (RecordReadException refused) when (refused.Status is HttpStatusCode.NotFound or HttpStatusCode.Gone)
        {
            return null;
        }
    }
}
