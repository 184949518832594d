using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Faults.Tests.Servers;

/// <summary>A server: how it misbehaves, and what it lets itself be written by.</summary>
/// <param name="Behaviour">Faults.</param>
/// <param name="Rung">Best way of writing it declares. At rung 3 it declares no conditions either, so that nothing but the bridge's own search stands against a second copy.</param>
public sealed record ServerKind(Behaviour Behaviour, Rung Rung)
{
    /// <summary>How long it may be at work on a write whose client is gone; no bridge can be safe against a server without such a bound.</summary>
    public TimeSpan LongestWork => Behaviour switch
    {
        Behaviour.Slow => TimeSpan.FromSeconds(3),
        Behaviour.Racing => TimeSpan.FromSeconds(2),
        _ => TimeSpan.FromSeconds(0.5),
    };

    public override string ToString() => $"{Behaviour}, rung {(int)Rung}";

    /// <summary>Takes out of a CapabilityStatement what this server does not offer.</summary>
    internal void Limit(JsonNode statement)
    {
        var rest = statement["rest"]![0]!;
        foreach (var resource in rest["resource"]!.AsArray())
        {
            resource!["updateCreate"] = Rung == Rung.TransactionOfUpdates;
            resource["conditionalCreate"] = Rung != Rung.SingleWrites;
        }

        if (Rung == Rung.SingleWrites)
        {
            rest["interaction"] = new JsonArray();
        }
    }
}
