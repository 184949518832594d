using System.Collections.Frozen;

namespace HandFhirBridge.Fhir.Validation.Terminology;

/// <summary>A value set whose every code is listed, so that a code is in it or not without asking anybody.</summary>
internal sealed class ClosedValueSet
{
    private readonly FrozenDictionary<Entry, string?> _entries;
    private readonly FrozenSet<string> _codes;

    internal ClosedValueSet(IEnumerable<(string System, string Code, string? Display)> concepts)
    {
        _entries = concepts.DistinctBy(concept => new Entry(concept.System, concept.Code))
            .ToFrozenDictionary(concept => new Entry(concept.System, concept.Code), concept => concept.Display);
        _codes = _entries.Keys.Select(entry => entry.Code).ToFrozenSet(StringComparer.Ordinal);
    }

    /// <summary>Whether a bare code is in the set under some system, as elements of type <c>code</c> are checked.</summary>
    internal bool ContainsCode(string code) => _codes.Contains(code);

    internal bool Contains(string? system, string? code) =>
        system is not null && code is not null && _entries.ContainsKey(new Entry(system, code));

    /// <summary>Text the set gives for a code; null if the code is not in it or has none there.</summary>
    internal string? DisplayOf(string? system, string? code) =>
        system is not null && code is not null ? _entries.GetValueOrDefault(new Entry(system, code)) : null;

    private readonly record struct Entry(string System, string Code);
}
