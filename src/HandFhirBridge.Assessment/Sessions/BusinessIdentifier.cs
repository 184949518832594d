namespace HandFhirBridge.Assessment.Sessions;

/// <summary>An identifier given by some authority: meaningful only with its system.</summary>
/// <param name="System">Absolute URI of the authority's numbering (for example <c>urn:oid:…</c>).</param>
/// <param name="Value">The number or name, compared exactly: case, spaces and leading zeros count.</param>
public sealed record BusinessIdentifier(string System, string Value)
{
    /// <inheritdoc/>
    public override string ToString() => $"{System}|{Value}";
}
