namespace HandFhirBridge.Assessment.Sessions;

/// <summary>What the therapist concludes, in words of their own. Handing it in is the performer's signature.</summary>
/// <param name="Text">The words; line breaks allowed.</param>
/// <param name="SignedAt">When the performer signed; not before the session ended.</param>
public sealed record SignedConclusion(string Text, DateTimeOffset SignedAt);
