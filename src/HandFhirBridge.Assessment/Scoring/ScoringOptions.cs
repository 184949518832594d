namespace HandFhirBridge.Assessment.Scoring;

/// <summary>What a site decides about scoring.</summary>
/// <param name="Demonstration">True lets norms from memory score; everything made of such a session says so. Never for patients.</param>
public sealed record ScoringOptions(bool Demonstration);
