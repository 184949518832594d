using System.Security.Claims;
using HandFhirBridge.Record;
using HandFhirBridge.Service.Security;

namespace HandFhirBridge.Service.Auditing;

/// <summary>
/// Leaves a line for each call of the embedded record that passed authorization, before its answer leaves. Calls of this program itself leave
/// none: who made it read or write is written down where they asked.
/// </summary>
/// <param name="trail">Where lines go.</param>
internal sealed class RecordAudit(AuditTrail trail) : IEndpointFilter
{
    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        var result = await next(context);
        var http = context.HttpContext;
        if (http.GetEndpoint()?.Metadata.GetMetadata<RecordEndpoint>() is { Actions: not RecordActions.None } endpoint && !RecordKey.Is(http.User))
        {
            var status = (result as IStatusCodeHttpResult)?.StatusCode ?? http.Response.StatusCode;
            await trail.WriteAsync(
                new(endpoint.Interaction, status, http.User.FindFirstValue("sub"), http.Connection.RemoteIpAddress?.ToString(), http.Request.Path, [])
                {
                    References = [.. (result as IRecordAnswer)?.Concerns ?? []],
                },
                http.RequestAborted);
        }

        return result;
    }
}
