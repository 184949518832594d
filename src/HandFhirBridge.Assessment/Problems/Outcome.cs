using System.Collections.Immutable;

namespace HandFhirBridge.Assessment.Problems;

/// <summary>What came of an attempt that may fail in expected ways: a value, problems, or (with warnings only) both.</summary>
/// <typeparam name="T">What is produced when no problem is an error.</typeparam>
/// <param name="Value">The product; null exactly when some problem is an error.</param>
/// <param name="Problems">Everything noticed, in the order of the input.</param>
public sealed record Outcome<T>(T? Value, ImmutableArray<Problem> Problems)
    where T : class
{
    /// <summary>True if there is a value to go on with.</summary>
    [System.Diagnostics.CodeAnalysis.MemberNotNullWhen(true, nameof(Value))]
    public bool Succeeded => Value is not null;
}
