using HandFhirBridge.Delivery.Reading;
using HandFhirBridge.Service.Auditing;
using HandFhirBridge.Service.Charts;
using HandFhirBridge.Service.Pipeline;
using HandFhirBridge.Service.Security;

namespace HandFhirBridge.Service.Http;

/// <summary>The course of a patient over time, for callers of this service.</summary>
public static class CourseEndpoints
{
    // A link carries no key: whoever is shown the course may open its reports for a while.
    private const string Reports = "../report/{site}/{session}";

    /// <summary>Maps <c>/courses</c>.</summary>
    public static void MapCourses(this IEndpointRouteBuilder endpoints) =>
        endpoints.MapGet("/courses", FindAsync).RequireAuthorization(Scopes.Read).Audit("search-type").WithTags("Reports")
            .WithSummary("Every session of the one patient with an identifier, over time: model, pictures and file, made from the record.")
            .Produces<CourseView>().ProducesOutcome(404, 502);

    private static async Task<IResult> FindAsync(
        string system, string value, string? site, RecordReaders records, SiteRegister sites, CourseReader courses, HttpContext context,
        CancellationToken cancellation)
    {
        var record = site is null ? records.First : records.Of(sites.TargetOf(site));
        context.Response.Headers.CacheControl = "no-store";
        try
        {
            var found = await record.FindPatientsAsync(system, value, cancellation);
            if (found is [{ }] && context.Request.Headers.Authorization.Count > 0)
            {
                await ReadingCookie.GiveAsync(context);
            }

            return found is [{ } patient]
                ? Results.Ok(CourseView.Of(await courses.ReadAsync(record, patient.Id!, cancellation), CoursePatient.Of(patient), null, Reports))
                : FhirResults.Refused(ChartProblems.NoOnePatient.At(
                    "value", $"{(found.Count == 0 ? "No patient" : $"{found.Count} patients")} in the record {(found.Count == 0 ? "carries" : "carry")} this identifier; exactly one must."));
        }
        catch (Exception failed) when (failed is RecordReadException or HttpRequestException)
        {
            return FhirResults.Refused(ServiceProblems.TargetUnreadable.At("", $"The record cannot be read: {failed.Message}"));
        }
    }
}
