using System.Net;
using HandFhirBridge.Record.Conformance;
using HandFhirBridge.Record.Export;
using HandFhirBridge.Record.Interactions;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.Logging;

namespace HandFhirBridge.Record.Http;

/// <summary>Which URL leads where.</summary>
/// <param name="basePath">Path of the FHIR base within the application.</param>
/// <param name="database">Where resources lie.</param>
/// <param name="options">Limits.</param>
/// <param name="clock">Gives the time.</param>
/// <param name="logger">Where failures of the server go.</param>
/// <param name="jobs">The exports.</param>
internal sealed class RecordRoutes(string basePath, RecordDatabase database, RecordOptions options, TimeProvider clock, ILogger<RecordRoutes> logger, ExportJobs jobs)
{
    // An operation that changes nothing is asked for either way.
    private static readonly string[] Reading = ["GET", "POST"];

    public void Map(RouteGroupBuilder group)
    {
        var reads = new ReadEndpoints(database, options, basePath);
        var writes = new WriteEndpoints(database, options, basePath);
        var operations = new OperationEndpoints(database, options, basePath, clock);
        group.AddEndpointFilter(new RefusalFilter(logger));
        group.MapGet("/metadata", (HttpRequest request) => new FhirResult(Capabilities.Statement(BaseOf(request, basePath), clock.GetUtcNow(), options)));
        group.MapPost("", writes.BundleAsync);
        group.MapGet("/{type}", reads.Search);
        group.MapPost("/{type}/_search", reads.SearchByPostAsync);
        group.MapPost("/{type}", writes.CreateAsync);
        group.MapPut("/{type}", writes.ConditionalUpdateAsync);
        group.MapGet("/{type}/{id}", reads.Read);
        group.MapPut("/{type}/{id}", writes.UpdateAsync);
        group.MapDelete("/{type}/{id}", writes.DeleteAsync);
        group.MapGet("/_history", reads.SystemHistory);
        group.MapGet("/{type}/_history", reads.TypeHistory);
        group.MapGet("/{type}/{id}/_history", reads.InstanceHistory);
        group.MapGet("/{type}/{id}/_history/{version}", reads.ReadVersion);
        group.MapMethods("/Observation/$lastn", Reading, operations.LastObservationsAsync);
        group.MapMethods("/Observation/$stats", Reading, operations.StatisticsAsync);
        group.MapMethods("/Patient/{id}/$everything", Reading, operations.PatientRecordAsync);
        var validation = new ValidationEndpoints(database, options, basePath);
        group.MapMethods("/{type}/$validate", Reading, validation.TypeAsync);
        group.MapMethods("/{type}/{id}/$validate", Reading, validation.InstanceAsync);
        MapExport(group, new ExportEndpoints(jobs, operations, options, clock, basePath));
        group.MapFallback("/{**path}", (HttpRequest request, string? path) => Unserved(request.Method, path ?? ""));
    }

    private static void MapExport(RouteGroupBuilder group, ExportEndpoints export)
    {
        group.MapMethods("/$export", Reading, export.SystemAsync);
        group.MapMethods("/Patient/$export", Reading, export.PatientsAsync);
        group.MapMethods("/Group/{id}/$export", Reading, export.GroupAsync);
        group.MapGet("/$export-status/{job}", export.Status);
        group.MapDelete("/$export-status/{job}", export.DeleteAsync);
        group.MapGet("/$export-status/{job}/{file}", export.File).WithMetadata(new MediaTypes.LinesAnswer());
    }

    /// <summary>The FHIR base as the client sees it.</summary>
    public static string BaseOf(HttpRequest request, string basePath) => $"{request.Scheme}://{request.Host}{request.PathBase}{basePath.TrimEnd('/')}";

    private static FhirResult Unserved(string method, string path)
    {
        var parts = path.Split('/', StringSplitOptions.RemoveEmptyEntries);
        var allow = parts switch
        {
            [] => "POST",
            [var type] when ResourceTypes.Has(type) => "GET, POST, PUT",
            [var type, not ['$', ..]] when ResourceTypes.Has(type) => "GET, PUT, DELETE",
            _ => null,
        };
        var (status, kind) = allow is null
            ? (HttpStatusCode.NotFound, OperationOutcome.IssueType.NotFound)
            : (HttpStatusCode.MethodNotAllowed, OperationOutcome.IssueType.NotSupported);
        var outcome = new RecordRefusal(status, kind, $"{method} /{path} is not served here. The CapabilityStatement at /metadata lists what is.").Outcome;
        return allow is null ? new(outcome, (int)status) : new(outcome, (int)status, new KeyValuePair<string, string>("Allow", allow));
    }
}
