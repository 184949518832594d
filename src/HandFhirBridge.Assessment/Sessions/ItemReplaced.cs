namespace HandFhirBridge.Assessment.Sessions;

/// <summary>A material that was replaced by another.</summary>
/// <param name="Item">Id of the material in the instrument's definition.</param>
/// <param name="ReplacedBy">What lay there instead, in words.</param>
public sealed record ItemReplaced(string Item, string ReplacedBy);
