namespace HandFhirBridge.Assessment.Instruments;

/// <summary>Which way a result is better.</summary>
public enum Direction
{
    /// <summary>Lower is better: times.</summary>
    Lower,

    /// <summary>Higher is better: strength, counts.</summary>
    Higher,
}
