using System.Collections.Immutable;

namespace HandFhirBridge.Assessment.Instruments;

/// <summary>A question asked before the test because a task may harm.</summary>
/// <param name="Id">Stable kebab-case id.</param>
/// <param name="Question">What is asked, in our own words.</param>
/// <param name="MayRuleOut">Task ids the therapist may have to leave out when the answer is yes. A prompt, not a decision.</param>
/// <param name="Caution">What to bear in mind, deferring to the surgeon's and local protocols.</param>
/// <param name="Source">Published source, or <c>common practice, no source</c>.</param>
public sealed record Precaution(string Id, string Question, ImmutableArray<string> MayRuleOut, string Caution, string Source);
