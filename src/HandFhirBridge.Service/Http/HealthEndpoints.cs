using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Service.Hosting;

namespace HandFhirBridge.Service.Http;

/// <summary>Whether the process runs, and whether it can take sessions.</summary>
public static class HealthEndpoints
{
    /// <summary>Maps <c>/health/live</c> and <c>/health/ready</c>.</summary>
    public static void MapHealth(this IEndpointRouteBuilder endpoints)
    {
        var health = endpoints.MapGroup("/health").AllowAnonymous().WithTags("Health");
        health.MapGet("/live", () => Results.Ok(new { Status = "live" })).WithSummary("The process runs.");
        health.MapGet("/ready", ReadyAsync).WithSummary("A warm-up validation has run and the ledger can be read; degraded, and still 200, while a target is down.");
    }

    private static async Task<IResult> ReadyAsync(Readiness readiness, ILedger ledger, TargetRegistry targets, CancellationToken cancellation)
    {
        if (!readiness.IsReady)
        {
            return Results.Json(new { Status = "warming up" }, statusCode: StatusCodes.Status503ServiceUnavailable);
        }

        try
        {
            var counts = await ledger.CountAsync(cancellation);
            var standings = targets.All.OrderBy(target => target.Name, StringComparer.Ordinal).Select(target => (target.Name, target.Contact.Standing)).ToList();
            return Results.Ok(new
            {
                // Sessions are accepted and kept all the same: an instance taken away for a target's sake would only stop that.
                Status = standings.Any(target => target.Standing.Availability == TargetAvailability.Down) ? "degraded" : "ready",
                counts.Open,
                counts.Waiting,
                counts.OldestUnsent,
                Targets = standings.Select(target => new
                {
                    target.Name, Status = target.Standing.Availability, target.Standing.LastContact, target.Standing.Since, target.Standing.Because,
                }),
            });
        }
        catch (LedgerException)
        {
            return Results.Json(new { Status = "the ledger cannot be read" }, statusCode: StatusCodes.Status503ServiceUnavailable);
        }
    }
}
