using System.Collections.Immutable;

namespace HandFhirBridge.Assessment.Sessions;

/// <summary>A precaution that was asked, its answer, and what the therapist therefore left out.</summary>
/// <param name="Precaution">Id in the instrument's definition.</param>
/// <param name="Answer">Yes, no or not known.</param>
/// <param name="RulesOut">Task ids the therapist ruled out because of it, for the hands in <paramref name="Hands"/>. Decided by the therapist, never by this software.</param>
/// <param name="Hands">Hands it concerns; empty means both.</param>
/// <param name="Note">Free text; null if none.</param>
public sealed record PrecautionAsked(
    string Precaution, PrecautionAnswer Answer, ImmutableArray<string> RulesOut, ImmutableArray<Hand> Hands, string? Note);
