using System.Security.Claims;
using HandFhirBridge.Service.Auditing;
using HandFhirBridge.Service.Pipeline;
using HandFhirBridge.Service.Security;

namespace HandFhirBridge.Service.Http;

/// <summary>Withdrawal of sessions over HTTP.</summary>
public static class WithdrawalEndpoints
{
    /// <summary>Maps <c>/sessions/{site}/{id}/withdrawal</c>.</summary>
    public static void MapWithdrawals(this IEndpointRouteBuilder endpoints) =>
        endpoints.MapPost("/sessions/{site}/{id}/withdrawal", WithdrawAsync).RequireAuthorization(Scopes.Operate).Audit("update").WithTags("Sessions")
            .WithSummary("Withdraw a session that was entered in error. 202 once the withdrawal is committed.")
            .Accepts<WithdrawalRequest>("application/json").Produces(StatusCodes.Status202Accepted).ProducesOutcome(404, 409, 413, 415, 422);

    private static async Task<IResult> WithdrawAsync(
        string site, string id, HttpRequest request, Withdrawals withdrawals, CancellationToken cancellation)
    {
        var (asked, unreadable) = await RequestJson.ReadAsync<WithdrawalRequest>(request, ServiceProblems.WithdrawalIncomplete, cancellation);
        if (unreadable is not null)
        {
            return FhirResults.Refused(unreadable);
        }

        var done = await withdrawals.WithdrawAsync(site, id, asked!.Reason, asked.By, request.HttpContext.User.FindFirstValue("sub"), cancellation);
        return done.Key is { } key
            ? Results.Accepted(SessionEndpoints.AddressOf(key), new { key.Site, key.SessionId, key.Revision, Sent = done.IsSent })
            : FhirResults.Refused(done.Problems);
    }
}
