using System.Collections.Frozen;

namespace HandFhirBridge.Outcomes.Deidentification;

/// <summary>What may leave of an element.</summary>
/// <param name="Treatment">What is done with it.</param>
/// <param name="Elements">Elements of an object that may leave; null where it has none.</param>
internal sealed record Allowed(Treatment Treatment, FrozenDictionary<string, Allowed>? Elements = null)
{
    /// <summary>An object of which these elements may leave.</summary>
    public static Allowed Of(params (string Name, Allowed What)[] elements) => new(Treatment.Elements, elements.ToFrozenDictionary(e => e.Name, e => e.What, StringComparer.Ordinal));

    /// <summary>A value treated in this way.</summary>
    public static implicit operator Allowed(Treatment treatment) => new(treatment);
}
