using System.Collections.Frozen;
using System.Diagnostics.CodeAnalysis;
using System.IO.Compression;

namespace HandFhirBridge.Fhir.Profiles;

/// <summary>
/// The part of the FHIR R4 definitions that sessions need, reduced and compressed: see <c>Core/README.md</c> for source,
/// licence and how it is made. Entries are named by their canonical URL, percent-encoded.
/// </summary>
[SuppressMessage("Design", "CA1001", Justification = "Lives as long as the process, and the archive is memory of this assembly.")]
internal sealed class CoreDefinitions
{
    /// <summary>Version of the FHIR specification the definitions are from.</summary>
    internal const string FhirVersion = "4.0.1";

    private readonly Lock _reading = new();
    private readonly ZipArchive _archive = new(EmbeddedDefinitions.OpenCore(), ZipArchiveMode.Read);
    private readonly FrozenDictionary<string, ZipArchiveEntry> _entries;

    internal CoreDefinitions() =>
        _entries = _archive.Entries.ToFrozenDictionary(entry => Uri.UnescapeDataString(entry.FullName), StringComparer.Ordinal);

    internal IEnumerable<string> Canonicals => _entries.Keys;

    /// <summary>UTF-8 JSON of one definition; null if it is not among them.</summary>
    internal byte[]? Read(string canonical)
    {
        if (!_entries.TryGetValue(canonical, out var entry))
        {
            return null;
        }

        lock (_reading)
        {
            using var stream = entry.Open();
            var content = new byte[entry.Length];
            stream.ReadExactly(content);
            return content;
        }
    }
}
