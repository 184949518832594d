namespace HandFhirBridge.Delivery.Targets;

/// <summary>What a target declares for one resource type; null where it declares nothing.</summary>
/// <param name="UpdateCreate">Whether a PUT to an unknown id creates the resource.</param>
/// <param name="ConditionalCreate">Whether <c>If-None-Exist</c> is honoured.</param>
/// <param name="Create">Whether a resource can come to be at all: by POST, or by PUT where that creates.</param>
public sealed record ResourceCapability(bool? UpdateCreate, bool? ConditionalCreate, bool? Create);
