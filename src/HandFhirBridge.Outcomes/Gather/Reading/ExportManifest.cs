using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;

namespace HandFhirBridge.Outcomes.Gather.Reading;

/// <summary>What an export gave (FHIR Bulk Data Access, "Response - Complete Status").</summary>
/// <param name="Until">The server's time of the export.</param>
/// <param name="RequiresToken">Whether the files want the sign-in.</param>
/// <param name="Output">Files of resources.</param>
/// <param name="Deleted">Files of Bundles that name deleted resources.</param>
internal sealed record ExportManifest(
    DateTimeOffset? Until, bool RequiresToken, ImmutableArray<(string Type, string Url)> Output, ImmutableArray<string> Deleted)
{
    public static ExportManifest Read(JsonElement json) => new(
        OwnResources.Text(json, "transactionTime") is { } text && DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var until) ? until : null,
        json.TryGetProperty("requiresAccessToken", out var token) && token.ValueKind == JsonValueKind.True,
        [.. Files(json, "output").Where(f => f.Type is not null).Select(f => (f.Type!, f.Url))],
        [.. Files(json, "deleted").Select(f => f.Url)]);

    private static IEnumerable<(string? Type, string Url)> Files(JsonElement json, string name)
    {
        if (json.TryGetProperty(name, out var list) && list.ValueKind == JsonValueKind.Array)
        {
            foreach (var file in list.EnumerateArray())
            {
                if (OwnResources.Text(file, "url") is { } url)
                {
                    yield return (OwnResources.Text(file, "type"), url);
                }
            }
        }
    }
}
