using HandFhirBridge.Delivery.Ledger;
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
        health.MapGet("/ready", ReadyAsync).WithSummary("A warm-up validation has run and the ledger can be read.");
    }

    private static async Task<IResult> ReadyAsync(Readiness readiness, ILedger ledger, CancellationToken cancellation)
    {
        if (!readiness.IsReady)
        {
            return Results.Json(new { Status = "warming up" }, statusCode: StatusCodes.Status503ServiceUnavailable);
        }

        try
        {
            var counts = await ledger.CountAsync(cancellation);
            return Results.Ok(new { Status = "ready", counts.Open, counts.Waiting, counts.OldestUnsent });
        }
        catch (LedgerException)
        {
            return Results.Json(new { Status = "the ledger cannot be read" }, statusCode: StatusCodes.Status503ServiceUnavailable);
        }
    }
}
