using System.Net;
using HandFhirBridge.Delivery.Authorization;

namespace HandFhirBridge.Service.Settings;

/// <summary>Wrong settings of the chart page, one sentence for each.</summary>
internal static class ChartCheck
{
    public static IEnumerable<string> Find(BridgeSettings settings)
    {
        var chart = settings.Chart;
        var address = chart.PublicAddress is { } open && !IsSafe(open)
            ? [$"Chart:PublicAddress is \"{open.OriginalString}\". Write the https address under which browsers reach this service."]
            : Array.Empty<string>();
        var twice = chart.Servers.GroupBy(s => s.BaseUrl.TrimEnd('/'), StringComparer.Ordinal).Where(g => g.Count() > 1)
            .Select(g => $"The server \"{g.Key}\" stands {g.Count()} times in Chart:Servers. Each stands once.");
        return address.Concat(chart.Servers.SelectMany((server, n) => Of(server, $"Chart:Servers:{n}"))).Concat(twice);
    }

    private static IEnumerable<string> Of(SmartServerSettings server, string name)
    {
        if (!Uri.TryCreate(server.BaseUrl, UriKind.Absolute, out var address) || !IsSafe(address))
        {
            yield return $"{name}:BaseUrl is \"{server.BaseUrl}\". Write the https FHIR base, for example https://fhir.clinic.example/r4.";
        }

        if (string.IsNullOrWhiteSpace(server.ClientId))
        {
            yield return $"{name}:ClientId is missing. Write what the server's administrator registered for this page.";
        }

        if (server.Secret is { } secret && !SecretReference.IsWellFormed(secret))
        {
            yield return $"{name}:Secret must say where the secret lies: env:NAME or file:PATH. The secret itself never stands in the settings.";
        }

        if (string.IsNullOrWhiteSpace(server.Scope))
        {
            yield return $"{name}:Scope is empty. Write the scopes to ask for, or remove it.";
        }
    }

    // Tokens travel there: only encrypted, or on this machine.
    private static bool IsSafe(Uri address) => address.IsAbsoluteUri
        && (address.Scheme == "https" || (address.Scheme == "http" && (address.Host == "localhost" || (IPAddress.TryParse(address.Host.Trim('[', ']'), out var ip) && IPAddress.IsLoopback(ip)))));
}
