using System.Collections.Immutable;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>An attempt as its Observation states it, scores not yet checked.</summary>
/// <param name="Observation">The resource.</param>
/// <param name="Place">Where it stands.</param>
/// <param name="Trial">What happened.</param>
/// <param name="RunOrder">Its place in the order run.</param>
/// <param name="Role">Stated hand role.</param>
/// <param name="Norms">Norms shown.</param>
/// <param name="NotJudged">Why there is no score; null if none is stated.</param>
internal sealed record ReadAttempt(
    Observation Observation,
    Place Place,
    Trial Trial,
    int RunOrder,
    HandRole Role,
    ImmutableArray<NormComparison> Norms,
    NoJudgement? NotJudged);
