namespace HandFhirBridge.Delivery.Targets;

/// <summary>What is known of a request.</summary>
public enum AnswerKind
{
    /// <summary>The target answered.</summary>
    Answered,

    /// <summary>Surely never sent.</summary>
    NotSent,

    /// <summary>Sent, or partly sent, and no answer came.</summary>
    NoAnswer,

    /// <summary>Not sent for want of a token.</summary>
    NotSignedIn,
}
