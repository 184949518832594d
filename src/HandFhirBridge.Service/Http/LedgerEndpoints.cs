using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Service.Operations;
using HandFhirBridge.Service.Pipeline;
using HandFhirBridge.Service.Security;

namespace HandFhirBridge.Service.Http;

/// <summary>The ledger over HTTP: what waits, why, and what happened to it. Lists hold nothing of patients.</summary>
public static class LedgerEndpoints
{
    private const int MostTaken = 500;

    /// <summary>Maps the reading part of <c>/ledger</c>.</summary>
    public static void MapLedger(this IEndpointRouteBuilder endpoints)
    {
        var entries = endpoints.MapGroup("/ledger/entries").RequireAuthorization(Scopes.ReadOrOperate).WithTags("Ledger");
        entries.MapGet("", ListAsync)
            .WithSummary("Sessions that are not delivered, oldest first, with counts by problem code. state, code, site, target and session choose; all=true shows every session.")
            .Produces<LedgerPage>().ProducesOutcome(400, 401, 403);
        entries.MapGet("/{site}/{id}", FindAsync)
            .WithSummary("One session with every attempt, the target's answers and differences, and what persons decided. Without the patient.")
            .Produces<EntryHistory>().ProducesOutcome(401, 403, 404);
    }

    private static async Task<IResult> ListAsync(
        string? state, string? code, string? site, string? target, string? session, bool? all, int? skip, int? take, LedgerDesk desk, CancellationToken cancellation)
    {
        var known = ReadState(state);
        if (state is not null && known is null)
        {
            return FhirResults.Refused(Wrong("state", state, $"Write one of {string.Join(", ", Enum.GetNames<DeliveryState>()).ToLowerInvariant()}."));
        }

        if (skip is < 0)
        {
            return FhirResults.Refused(Wrong("skip", $"{skip}", "Write 0 or more."));
        }

        if (take is < 1 or > MostTaken)
        {
            return FhirResults.Refused(Wrong("take", $"{take}", $"Write 1 to {MostTaken}."));
        }

        return Results.Ok(await desk.ListAsync(
            new()
            {
                State = known, ProblemCode = code, Site = site, Target = target, SessionId = session,
                Unsent = known is null && all is not true, Skip = skip ?? 0, Take = take ?? 50,
            },
            cancellation));
    }

    private static async Task<IResult> FindAsync(string site, string id, int? revision, LedgerDesk desk, CancellationToken cancellation) =>
        await desk.FindAsync(site, id, revision, cancellation) is { } found
            ? Results.Ok(found)
            : FhirResults.Refused(ServiceProblems.NoSession(site, id, revision));

    /// <summary>A state by its word; null if there is none of this name.</summary>
    internal static DeliveryState? ReadState(string? word) =>
        Enum.GetValues<DeliveryState>().Where(state => state.ToString().Equals(word, StringComparison.OrdinalIgnoreCase)).Select(state => (DeliveryState?)state).SingleOrDefault();

    private static Problem Wrong(string name, string value, string remedy) =>
        ServiceProblems.LedgerQuestion.At(name, $"{name} is \"{value}\".", value, remedy);
}
