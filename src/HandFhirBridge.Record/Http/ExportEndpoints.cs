using System.Globalization;
using System.Net;
using HandFhirBridge.Record.Export;
using Hl7.Fhir.Model;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Extensions;

namespace HandFhirBridge.Record.Http;

/// <summary>Bulk export (FHIR Bulk Data Access 2.0, http://hl7.org/fhir/uv/bulkdata): kick-off, status, files, deletion.</summary>
/// <param name="jobs">The exports.</param>
/// <param name="operations">Reads the parameters.</param>
/// <param name="options">Whether callers sign in.</param>
/// <param name="clock">Gives the time.</param>
/// <param name="basePath">Path of the FHIR base.</param>
internal sealed class ExportEndpoints(ExportJobs jobs, OperationEndpoints operations, RecordOptions options, TimeProvider clock, string basePath)
{
    private const string StatusPath = "$export-status";

    public Task<IResult> SystemAsync(HttpRequest request, CancellationToken cancellation) => BeginAsync(request, ExportLevel.System, null, cancellation);

    public Task<IResult> PatientsAsync(HttpRequest request, CancellationToken cancellation) => BeginAsync(request, ExportLevel.Patients, null, cancellation);

    public Task<IResult> GroupAsync(HttpRequest request, string id, CancellationToken cancellation) => BeginAsync(request, ExportLevel.Group, id, cancellation);

    public IResult Status(HttpRequest request, string job)
    {
        var export = jobs.Find(job);
        var headers = request.HttpContext.Response.Headers;
        if (export.End is not { } end)
        {
            headers["X-Progress"] = export.Progress;
            headers.RetryAfter = Seconds(clock.GetUtcNow() - export.TransactionTime < TimeSpan.FromSeconds(10) ? 1 : 5);
            return Results.StatusCode(StatusCodes.Status202Accepted);
        }

        headers.Expires = end.Expires.ToString("R", CultureInfo.InvariantCulture);
        if (end.Failure is { } failure)
        {
            throw failure;
        }

        var files = $"{RecordRoutes.BaseOf(request, basePath)}/{StatusPath}/{export.Id}/";
        return Results.Text(ExportManifest.Of(export, files, options.Security is not null), "application/json");
    }

    public IResult File(string job, string file)
    {
        var export = jobs.Find(job);
        if (export.End?.Files.Any(f => f.Name == file) != true)
        {
            throw RecordRefusal.NotFound($"The export {job} has no file {file}. Its manifest lists those it has.");
        }

        // A download under way ends well even if the export is removed meanwhile.
        var stream = new FileStream(Path.Combine(export.Folder, file), FileMode.Open, FileAccess.Read, FileShare.Read | FileShare.Delete, 81920, FileOptions.Asynchronous | FileOptions.SequentialScan);
        return Results.Stream(stream, MediaTypes.FhirNdjson);
    }

    public async Task<IResult> DeleteAsync(string job)
    {
        await jobs.RemoveAsync(job);
        return Results.StatusCode(StatusCodes.Status202Accepted);
    }

    private async Task<IResult> BeginAsync(HttpRequest request, ExportLevel level, string? group, CancellationToken cancellation)
    {
        var preference = Preference.Of(request);
        if (!preference.Asynchronous)
        {
            throw RecordRefusal.BadRequest("An export is made in the background only. Send the header Prefer: respond-async, and ask at the address in Content-Location how it is doing.");
        }

        var baseUrl = RecordRoutes.BaseOf(request, basePath);
        var asked = new ExportOrder(level, group, request.GetEncodedUrl(), baseUrl);
        var order = new ExportParameters(asked, preference.Lenient, HttpMethods.IsPost(request.Method)).Read(await operations.ParametersAsync(request, cancellation));
        try
        {
            var export = await jobs.StartAsync(order, cancellation);
            return new FhirResult((string?)null, StatusCodes.Status202Accepted, new KeyValuePair<string, string>("Content-Location", $"{baseUrl}/{StatusPath}/{export.Id}"));
        }
        catch (RecordRefusal full) when (full.Status == HttpStatusCode.TooManyRequests)
        {
            request.HttpContext.Response.Headers.RetryAfter = Seconds(Math.Ceiling(jobs.Wait.TotalSeconds));
            throw;
        }
    }

    private static string Seconds(double seconds) => seconds.ToString("0", CultureInfo.InvariantCulture);
}
