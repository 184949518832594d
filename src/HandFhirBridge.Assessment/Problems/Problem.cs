namespace HandFhirBridge.Assessment.Problems;

/// <summary>One thing wrong with one input: the value an expected failure is carried in.</summary>
/// <param name="Kind">Row of the failure table.</param>
/// <param name="Severity">Severity of this occurrence.</param>
/// <param name="Location">JSON path (<c>$.trials[3].seconds</c>), FHIRPath or setting; empty for the whole input.</param>
/// <param name="Message">One plain sentence naming field and value.</param>
/// <param name="Found">The offending value as written; null if none.</param>
/// <param name="Remedy">What to do, one sentence.</param>
public sealed record Problem(ProblemKind Kind, Severity Severity, string Location, string Message, string? Found, string Remedy)
{
    /// <summary>File, and for NDJSON and CSV the line, the input came from; null for input without a place of its own.</summary>
    public SourcePlace? Place { get; init; }

    /// <summary>Stable code of the kind.</summary>
    public string Code => Kind.Code;

    /// <inheritdoc/>
    public override string ToString() =>
        $"{(Place is null ? "" : Place + ": ")}{Code} {Severity.ToString().ToLowerInvariant()}{(Location.Length == 0 ? "" : " at " + Location)}: {Message} {Remedy}";
}
