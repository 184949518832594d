using System.Security.Claims;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Service.Auditing;
using HandFhirBridge.Service.Operations;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Pipeline;
using HandFhirBridge.Service.Security;
using Hl7.Fhir.Model;
using Task = System.Threading.Tasks.Task;

namespace HandFhirBridge.Service.Http;

/// <summary>What persons do to the ledger over HTTP. Each decision is kept with what follows from it, or neither.</summary>
public static class LedgerActionEndpoints
{
    private delegate Task<bool> Act(ILedger ledger, SessionKey key, DecisionRequest request, PersonDecision decision, CancellationToken cancellation);

    /// <summary>Maps the acting part of <c>/ledger</c>.</summary>
    public static void MapLedgerActions(this IEndpointRouteBuilder endpoints)
    {
        endpoints.MapPost("/ledger/retry", RetryAllAsync).RequireAuthorization(Scopes.Operate).Audit("update").WithTags("Ledger")
            .WithSummary("Retry every held or failed session that matches, spread in time. Codes to be looked at one by one are chosen only by name.")
            .Accepts<RetryRequest>("application/json").Produces<RetryBatch>(StatusCodes.Status202Accepted).ProducesOutcome(401, 403, 413, 415, 422);
        Map(endpoints, "retry", "Put a held or failed session in line again; its next attempt looks before it writes.",
            (ledger, key, _, decision, cancellation) => ledger.RetryAsync(key, decision, cancellation));
        Map(endpoints, "hold", "Take a session that waits out of line until a person retries it.",
            (ledger, key, _, decision, cancellation) => ledger.HoldAsync(key, decision, cancellation));
        Map(endpoints, "resolve", "Choose the chart of a held session by patientId; it is looked up anew before anything is sent.",
            (ledger, key, request, decision, cancellation) => ledger.ResolveAsync(key, new(request.PatientId!, decision), cancellation));
    }

    private static void Map(IEndpointRouteBuilder endpoints, string action, string summary, Act act) => endpoints
        .MapPost($"/ledger/entries/{{site}}/{{id}}/{action}", (
            string site, string id, HttpContext context, ILedger ledger, TimeProvider clock, CancellationToken cancellation) =>
            DecideAsync(site, id, action, act, context, ledger, clock, cancellation))
        .RequireAuthorization(Scopes.Operate).Audit("update").WithTags("Ledger").WithSummary(summary)
        .Accepts<DecisionRequest>("application/json").Produces<LedgerRow>().ProducesOutcome(401, 403, 404, 409, 413, 415, 422);

    private static async Task<IResult> DecideAsync(
        string site, string id, string action, Act act, HttpContext context, ILedger ledger, TimeProvider clock, CancellationToken cancellation)
    {
        var (request, unreadable) = await RequestJson.ReadAsync<DecisionRequest>(context.Request, ServiceProblems.DecisionIncomplete, cancellation);
        var problems = unreadable is not null ? [unreadable] : Check(request!, action).ToList();
        if (problems.Count > 0)
        {
            return FhirResults.Refused(problems);
        }

        if (await ledger.ReadRevisionsAsync(site, id, cancellation) is not [.., var latest])
        {
            return FhirResults.Refused(ServiceProblems.NoSession(site, id));
        }

        if (request!.Revision is { } seen && seen != latest.Key.Revision)
        {
            return FhirResults.Refused(ServiceProblems.NotInThatState.At(
                "$.revision", $"Revision {seen} of {site}/{id} is not the latest: revision {latest.Key.Revision} is.", $"{seen}"));
        }

        var decision = Decision(request.By!, request.Reason!, context, clock);
        return await act(ledger, latest.Key, request, decision, cancellation)
            ? Results.Ok(LedgerRow.Of((await ledger.FindAsync(latest.Key, cancellation))!))
            : FhirResults.Refused(await RefusalAsync(latest.Key, action, ledger, cancellation));
    }

    private static async Task<IResult> RetryAllAsync(HttpContext context, ILedger ledger, TimeProvider clock, CancellationToken cancellation)
    {
        var (request, unreadable) = await RequestJson.ReadAsync<RetryRequest>(context.Request, ServiceProblems.DecisionIncomplete, cancellation);
        var problems = unreadable is not null ? [unreadable] : Check(request!).ToList();
        if (problems.Count > 0)
        {
            return FhirResults.Refused(problems);
        }

        var filter = request!.Filter;
        var batch = await ledger.RetryAllAsync(
            new() { State = LedgerEndpoints.ReadState(filter?.State), ProblemCode = filter?.Code, Site = filter?.Site, Target = filter?.Target },
            request.Over is { } over ? SpanText.Read(over)!.Value : TimeSpan.Zero,
            Decision(request.By!, request.Reason!, context, clock),
            cancellation);
        return Results.Json(batch, JsonText.Compact, statusCode: StatusCodes.Status202Accepted);
    }

    private static IEnumerable<Problem> Check(DecisionRequest request, string action)
    {
        foreach (var problem in DecisionCheck.Find(request.Reason, request.By, ServiceProblems.DecisionIncomplete))
        {
            yield return problem;
        }

        if (action == "resolve" && !Id.IsValidValue(request.PatientId ?? ""))
        {
            yield return ServiceProblems.DecisionIncomplete.At("$.patientId", "patientId is no id of a resource.", request.PatientId, "Write the part behind Patient/.");
        }
        else if (action != "resolve" && request.PatientId is not null)
        {
            yield return ServiceProblems.DecisionIncomplete.At("$.patientId", $"patientId has no meaning for {action}.");
        }
    }

    private static IEnumerable<Problem> Check(RetryRequest request)
    {
        foreach (var problem in DecisionCheck.Find(request.Reason, request.By, ServiceProblems.DecisionIncomplete))
        {
            yield return problem;
        }

        if (request.Over is { } over && SpanText.Read(over) is null)
        {
            yield return ServiceProblems.DecisionIncomplete.At("$.over", $"over is \"{over}\".", over, SpanText.Remedy);
        }

        if (request.Filter?.State is { } state && LedgerEndpoints.ReadState(state) is not (DeliveryState.Held or DeliveryState.Failed))
        {
            yield return ServiceProblems.DecisionIncomplete.At("$.filter.state", $"filter.state is \"{state}\".", state, "Write held or failed, or leave it out for both.");
        }
    }

    private static PersonDecision Decision(string by, string reason, HttpContext context, TimeProvider clock) =>
        new(by.Trim(), reason.Trim(), clock.GetUtcNow()) { Caller = context.User.FindFirstValue("sub") };

    private static async Task<Problem> RefusalAsync(SessionKey key, string action, ILedger ledger, CancellationToken cancellation)
    {
        var state = Words.Of((await ledger.FindAsync(key, cancellation))!.State);
        return ServiceProblems.NotInThatState.At("", $"{key} is {state}; it cannot be given to: {action}.", state);
    }
}
