using System.Text.Json;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Charts.Smart;

/// <summary>Finds out how users sign in to a server in the settings (SMART App Launch 2.2, section 2.3). No other server is ever asked.</summary>
/// <param name="clients">Gives the HTTP client.</param>
/// <param name="settings">Names the servers.</param>
public sealed class SmartDiscovery(IHttpClientFactory clients, BridgeSettings settings)
{
    /// <summary>The server of this <c>iss</c>; the only one there is where none is named; else null.</summary>
    public SmartServerSettings? Server(string? iss) => iss is null
        ? settings.Chart.Servers is [var only] ? only : null
        : settings.Chart.Servers.FirstOrDefault(s => string.Equals(s.BaseUrl.TrimEnd('/'), iss.TrimEnd('/'), StringComparison.Ordinal));

    /// <summary>Its endpoints, or why they cannot be used.</summary>
    public async Task<Outcome<SmartEndpoints>> FindAsync(SmartServerSettings server, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(server);
        var address = new Uri($"{server.BaseUrl.TrimEnd('/')}/.well-known/smart-configuration");
        try
        {
            using var client = clients.CreateClient(nameof(SmartDiscovery));
            using var answer = await client.GetAsync(address, cancellation);
            return answer.IsSuccessStatusCode
                ? Read(JsonDocument.Parse(await answer.Content.ReadAsStringAsync(cancellation)).RootElement)
                : Unusable($"It answered {(int)answer.StatusCode} when asked how to sign in.");
        }
        catch (Exception failed) when (failed is HttpRequestException or JsonException or InvalidOperationException)
        {
            return Unusable("It cannot be reached, or does not say how to sign in.");
        }
    }

    private static Outcome<SmartEndpoints> Read(JsonElement configuration)
    {
        if (Text("authorization_endpoint") is not { } authorize || !Uri.TryCreate(authorize, UriKind.Absolute, out var begin)
            || Text("token_endpoint") is not { } token || !Uri.TryCreate(token, UriKind.Absolute, out var end))
        {
            return Unusable("It names no authorization and token endpoint.");
        }

        // Without it a code could be used by whoever sees it.
        return configuration.TryGetProperty("code_challenge_methods_supported", out var methods) && methods.EnumerateArray().All(m => m.GetString() != "S256")
            ? Unusable("It does not support PKCE with S256.")
            : new(new SmartEndpoints(begin, end, Text("issuer")), []);

        string? Text(string name) => configuration.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;
    }

    private static Outcome<SmartEndpoints> Unusable(string why) => new(null, [ChartProblems.SignInUnknown.At("", $"The record cannot be signed in to. {why}")]);
}
