namespace HandFhirBridge.Assessment.Sessions;

/// <summary>Answer to one precaution asked before the test.</summary>
public enum PrecautionAnswer
{
    /// <summary>The precaution applies.</summary>
    Yes,

    /// <summary>It does not apply.</summary>
    No,

    /// <summary>Asked, but nobody present could tell.</summary>
    NotKnown,
}
