using System.Security.Claims;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;

namespace HandFhirBridge.Service.Auditing;

/// <summary>Has an endpoint leave a line in the audit trail.</summary>
internal static class Audited
{
    private static readonly object Noted = new();

    /// <summary>Writes down each call that passed authorization, before its answer leaves.</summary>
    /// <param name="endpoint">Takes <c>site</c> and <c>id</c> from its path and <c>system</c> and <c>value</c> from its query, where it has them.</param>
    /// <param name="interaction">As FHIR names it.</param>
    public static TBuilder Audit<TBuilder>(this TBuilder endpoint, string interaction)
        where TBuilder : IEndpointConventionBuilder => endpoint.AddEndpointFilter(async (invocation, next) =>
    {
        var context = invocation.HttpContext;
        var result = await next(invocation);
        var status = (result as IStatusCodeHttpResult)?.StatusCode ?? context.Response.StatusCode;
        var act = new AuditedAct(
            interaction, status, context.User.FindFirstValue("sub"), context.Connection.RemoteIpAddress?.ToString(), context.Request.Path, [.. Concerning(context)]);
        await context.RequestServices.GetRequiredService<AuditTrail>().WriteAsync(act, context.RequestAborted);
        return result;
    });

    /// <summary>What a call concerns beyond what its address says.</summary>
    public static void Concerns(HttpContext context, string system, string value)
    {
        if (context.Items.TryGetValue(Noted, out var held) && held is List<BusinessIdentifier> list)
        {
            list.Add(new(system, value));
        }
        else
        {
            context.Items[Noted] = new List<BusinessIdentifier> { new(system, value) };
        }
    }

    private static IEnumerable<BusinessIdentifier> Concerning(HttpContext context)
    {
        if (context.GetRouteValue("site") is string site && context.GetRouteValue("id") is string id)
        {
            yield return new(IdentifierSystems.Report, $"{site}/{id}");
        }

        if (context.Request.Query["system"] is [{ } system] && context.Request.Query["value"] is [{ } value])
        {
            yield return new(system, value);
        }

        foreach (var noted in context.Items.TryGetValue(Noted, out var held) && held is List<BusinessIdentifier> list ? list : [])
        {
            yield return noted;
        }
    }
}
