using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Delivery.Tests.Servers;

/// <summary>One way a server behaves, and where a session ends because of it.</summary>
/// <param name="Name">The behaviour.</param>
/// <param name="Script">Makes a scripted target behave so.</param>
/// <param name="Rung">Rung of the last attempt; null if nothing was written by it.</param>
/// <param name="State">Where the session ends.</param>
/// <param name="Code">Code it ends with; null without one.</param>
/// <param name="Form">What is kept of a delivered session.</param>
public sealed record ServerBehaviour(
    string Name, Action<ScriptedTarget> Script, int? Rung, DeliveryState State = DeliveryState.Delivered, string? Code = null,
    KeptForm Form = KeptForm.Whole);
