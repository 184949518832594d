using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>What the set-up response says of a session; null stands for what was missing or not understood, and was noted.</summary>
internal sealed record SetupFacts(
    string? InstrumentId,
    string? InstrumentVersion,
    DateTimeOffset? StartedAt,
    DateTimeOffset? EndedAt,
    PerformerRole? PerformerRole,
    string? FamilyName,
    DateOnly? BirthDate,
    SexForNorm? SexForNorm,
    ImmutableArray<PrecautionAsked> Precautions,
    Setup Setup,
    string? Comment);
