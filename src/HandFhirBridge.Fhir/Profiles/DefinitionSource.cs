using System.Collections.Concurrent;
using System.Collections.Frozen;
using System.Text.Json;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Hl7.Fhir.Specification.Source;

namespace HandFhirBridge.Fhir.Profiles;

/// <summary>Finds definitions by canonical URL: the project's own, then those of the FHIR core. Each is read when first asked for and kept.</summary>
internal sealed class DefinitionSource : IAsyncResourceResolver
{
    private const string IndexPath = ".index.json";

    // The definitions are ours and checked by tests; checking them again would delay each first verdict.
    private static readonly FhirJsonDeserializer Trusting = new(new DeserializerSettings { Validator = null });

    private readonly CoreDefinitions _core = new();
    private readonly FrozenDictionary<string, string> _ownPaths = ReadIndex();
    private readonly ConcurrentDictionary<string, Resource?> _found = new(StringComparer.Ordinal);

    /// <summary>Canonical URLs of the value sets in hand, own and core.</summary>
    internal IEnumerable<string> ValueSets =>
        _ownPaths.Keys.Concat(_core.Canonicals).Where(canonical => canonical.Contains("/ValueSet/", StringComparison.Ordinal));

    /// <summary>A definition as UTF-8 JSON, as it was generated.</summary>
    /// <param name="canonical">Canonical URL without version.</param>
    /// <returns>Null if there is none.</returns>
    internal byte[]? Read(string canonical) =>
        _ownPaths.TryGetValue(canonical, out var path) ? EmbeddedDefinitions.ReadPackageFile(path) : _core.Read(canonical);

    /// <summary>A definition as a resource.</summary>
    /// <param name="canonical">Canonical URL; a version after <c>|</c> must be the definition's.</param>
    /// <returns>Null if there is none, or not in that version.</returns>
    internal Resource? Find(string canonical)
    {
        var bar = canonical.IndexOf('|', StringComparison.Ordinal);
        var found = _found.GetOrAdd(bar < 0 ? canonical : canonical[..bar], Parse);
        return bar < 0 || (found as IVersionableConformanceResource)?.Version == canonical[(bar + 1)..] ? found : null;
    }

    /// <inheritdoc/>
    public Task<Resource?> ResolveByCanonicalUriAsync(string uri) => System.Threading.Tasks.Task.FromResult(Find(uri));

    /// <inheritdoc/>
    public Task<Resource?> ResolveByUriAsync(string uri) => ResolveByCanonicalUriAsync(uri);

    private Resource? Parse(string canonical)
    {
        var json = Read(canonical);
        if (json is null)
        {
            return null;
        }

        var needed = canonical.Contains("/StructureDefinition/", StringComparison.Ordinal) && _ownPaths.ContainsKey(canonical)
            ? DefinitionFilter.Reduce(json)
            : json;
        var reader = new Utf8JsonReader(needed);
        return Trusting.DeserializeResource(ref reader);
    }

    private static FrozenDictionary<string, string> ReadIndex()
    {
        using var index = JsonDocument.Parse(EmbeddedDefinitions.ReadPackageFile(IndexPath));
        return index.RootElement.GetProperty("files").EnumerateArray()
            .Where(file => file.TryGetProperty("url", out _))
            .ToFrozenDictionary(file => file.GetProperty("url").GetString()!, file => file.GetProperty("filename").GetString()!, StringComparer.Ordinal);
    }
}
