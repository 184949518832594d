using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Service.Auditing;
using HandFhirBridge.Service.Pipeline;
using HandFhirBridge.Service.Reports;
using HandFhirBridge.Service.Security;
using System.Text;

namespace HandFhirBridge.Service.Http;

/// <summary>Sessions over HTTP: hand in, try out, ask.</summary>
public static class SessionEndpoints
{
    /// <summary>Maps <c>/sessions</c>.</summary>
    public static void MapSessions(this IEndpointRouteBuilder endpoints)
    {
        var sessions = endpoints.MapGroup("/sessions").WithTags("Sessions");
        sessions.MapPost("", SubmitAsync).RequireAuthorization(Scopes.Submit).Audit("create")
            .WithSummary("Hand in a finished session. 202 once it is committed; refused documents are answered with an OperationOutcome.")
            .Accepts<object>("application/json").Produces(StatusCodes.Status202Accepted).ProducesOutcome(400, 409, 413, 415, 422);
        sessions.MapPost("/preview", PreviewAsync).RequireAuthorization(Scopes.Submit)
            .WithSummary("Score and check a session without storing anything.").Accepts<object>("application/json").Produces<object>().ProducesOutcome(413, 415);
        sessions.MapGet("/{site}/{id}", StateAsync).RequireAuthorization(Scopes.Read).Audit("read")
            .WithSummary("Where the latest revision of a session stands.").Produces<SessionState>().ProducesOutcome(404);
        sessions.MapGet("/{site}/{id}/bundle", BundleAsync).RequireAuthorization(Scopes.Read).Audit("read")
            .WithSummary("The FHIR transaction as it was committed.").Produces<object>(StatusCodes.Status200OK, FhirResults.MediaType).ProducesOutcome(404);
        sessions.MapGet("/{site}/{id}/report", ReportAsync).RequireAuthorization(Scopes.Read).Audit("read")
            .WithSummary("The report, made from the resources as they stand in the record.").Produces<SessionReport>().ProducesOutcome(404, 502);
    }

    private static async Task<IResult> SubmitAsync(
        HttpRequest request, SessionPipeline pipeline, EarlierSessions earlier, ILedger ledger, CancellationToken cancellation)
    {
        var (bytes, unreadable) = await SessionBody.ReadAsync(request, cancellation);
        if (unreadable is not null)
        {
            return FhirResults.Refused(unreadable);
        }

        var read = pipeline.Read(bytes);
        if (read.Value is { } named)
        {
            Audited.Concerns(request.HttpContext, IdentifierSystems.Report, named.Key);
        }

        var prepared = pipeline.Prepare(read, read is { Succeeded: true, Value: { } handedIn } ? await earlier.FindAsync(handedIn, cancellation) : null);
        if (prepared.Value is not { } session)
        {
            return FhirResults.Refused(prepared.Problems);
        }

        var result = (await ledger.AcceptAsync([session.ToAccept()], cancellation))[0];
        return result.Problem is { } problem
            ? FhirResults.Refused(problem)
            : Accepted(result, prepared.Problems);
    }

    private static IResult Accepted(AcceptResult result, IReadOnlyList<Problem> remarks) => Results.Accepted(
        AddressOf(result.Key),
        new
        {
            result.Key.Site,
            result.Key.SessionId,
            result.Key.Revision,
            Outcome = result.Outcome,
            Remarks = remarks.Select(Output.ProblemJson.Of),
        });

    private static async Task<IResult> PreviewAsync(
        HttpRequest request, SessionPipeline pipeline, ReportBuilder reports, CancellationToken cancellation)
    {
        var (bytes, unreadable) = await SessionBody.ReadAsync(request, cancellation);
        if (unreadable is not null)
        {
            return FhirResults.Refused(unreadable);
        }

        var prepared = pipeline.Prepare(bytes);
        return Results.Ok(new
        {
            Problems = prepared.Problems.Select(Output.ProblemJson.Of),
            Report = prepared.Value is { } session ? reports.Build(session.Report, session.Scored, EarlierFinding.NotLookedFor) : null,
            ConclusionDraft = prepared.Value is { } scored ? pipeline.DraftConclusion(scored) : null,
        });
    }

    private static async Task<IResult> StateAsync(string site, string id, ILedger ledger, CancellationToken cancellation)
    {
        var entry = await LatestAsync(site, id, ledger, cancellation);
        return entry is null
            ? FhirResults.Refused(ServiceProblems.NoSession(site, id))
            : Results.Ok(SessionState.Of(
                entry, await ledger.ReadAttemptsAsync(entry.Key, cancellation), await ledger.ReadDecisionsAsync(entry.Key, cancellation)));
    }

    private static async Task<IResult> BundleAsync(string site, string id, ILedger ledger, CancellationToken cancellation)
    {
        var entry = await LatestAsync(site, id, ledger, cancellation);
        var payload = entry is null ? null : await ledger.ReadPayloadAsync(entry.Key, cancellation);
        return payload is null
            ? FhirResults.Refused(ServiceProblems.NoSession(site, id))
            : Results.Text(Encoding.UTF8.GetString(payload.Bundle.Span), "application/fhir+json");
    }

    private static async Task<IResult> ReportAsync(string site, string id, RecordedReports recorded, CancellationToken cancellation)
    {
        var report = await recorded.FindAsync(site, id, cancellation);
        return report.Value is { } found ? Results.Ok(found) : FhirResults.Refused(report.Problems);
    }

    /// <summary>Where a session is asked for.</summary>
    internal static string AddressOf(SessionKey key) => $"/sessions/{key.Site}/{key.SessionId}";

    private static async Task<LedgerEntry?> LatestAsync(string site, string id, ILedger ledger, CancellationToken cancellation) =>
        await ledger.ReadRevisionsAsync(site, id, cancellation) is [.., var latest] ? latest : null;
}
