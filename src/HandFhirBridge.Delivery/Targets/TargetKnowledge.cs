namespace HandFhirBridge.Delivery.Targets;

/// <summary>What is known of a target, as it is kept beyond a restart. Holds nothing of any session.</summary>
/// <param name="BaseUrl">Address it is known of; at another address nothing of it holds.</param>
/// <param name="Capabilities">What was declared last; null before the first reading.</param>
/// <param name="Rung">Rung written with last; null before the first success, and again once the capabilities are read anew.</param>
/// <param name="LastFall">Last fall from rung to rung; null if there was none.</param>
public sealed record TargetKnowledge(Uri BaseUrl, TargetCapabilities? Capabilities, RungMemory? Rung, RungFall? LastFall);
