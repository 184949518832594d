using System.Net.Http.Json;
using System.Text.Json;

namespace HandFhirBridge.Delivery.Authorization;

/// <summary>Finds a target's token endpoint in its SMART configuration (SMART App Launch 2.2, "Discovery").</summary>
/// <param name="http">Client without sign-in.</param>
/// <param name="fhirBase">FHIR base of the target.</param>
public sealed class SmartConfiguration(HttpClient http, Uri fhirBase)
{
    private Uri? found;

    /// <summary>The token endpoint; remembered once found.</summary>
    /// <exception cref="SignInException">The target publishes none.</exception>
    public async Task<Uri> TokenEndpointAsync(CancellationToken cancellation)
    {
        if (found is not null)
        {
            return found;
        }

        var address = new Uri(fhirBase.OriginalString.TrimEnd('/') + "/.well-known/smart-configuration");
        try
        {
            var document = await http.GetFromJsonAsync<JsonElement>(address, cancellation);
            found = document.TryGetProperty("token_endpoint", out var endpoint)
                && Uri.TryCreate(endpoint.GetString(), UriKind.Absolute, out var uri)
                ? uri
                : throw new SignInException($"{address} names no token_endpoint. Set TokenEndpoint.");
            return found;
        }
        catch (Exception broken) when (broken is HttpRequestException or JsonException or InvalidOperationException)
        {
            throw new SignInException($"{address} cannot be read. Set TokenEndpoint, or check that the target is up.", broken);
        }
    }
}
