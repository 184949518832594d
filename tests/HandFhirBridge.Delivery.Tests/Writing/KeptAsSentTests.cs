using System.Text.Json;
using System.Text.Json.Nodes;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Delivery.Tests.Servers;
using HandFhirBridge.Delivery.Writing;

namespace HandFhirBridge.Delivery.Tests.Writing;

/// <summary>The short answer must never say that something is kept which the long comparison finds changed.</summary>
public sealed class KeptAsSentTests
{
    private static readonly SessionBundle Session = Bundle();
    private static readonly Dictionary<int, string> Ids = Session.Entries.ToDictionary(entry => entry.Index, entry => $"at-the-target-{entry.Index}");

    [Fact]
    public void Is_KeptWithTheServersOwnIdsAndMeta_IsTrueOfEachResource()
    {
        foreach (var entry in Session.Entries)
        {
            IsKept(entry, Kept(entry)).ShouldBeTrue(entry.Label);
        }
    }

    [Fact]
    public void Is_EveryElementChangedInTurn_NeverSaysKeptWhereTheComparisonFindsADifference()
    {
        var (changes, seen) = (0, 0);
        foreach (var entry in Session.Entries)
        {
            var sent = ResourcePlaces.Lead(entry, Session, Ids).ToElement();
            var places = Places(Kept(entry)).Count();
            for (var place = 0; place < places; place++)
            {
                foreach (var change in Changes)
                {
                    var kept = Kept(entry);
                    change(Places(kept).ElementAt(place));
                    changes++;
                    if (ResourceComparison.Find(entry.Label, sent, kept.ToElement()).Count > 0)
                    {
                        seen++;
                        IsKept(entry, kept).ShouldBeFalse($"{entry.Label}: {kept.ToJsonString()}");
                    }
                }
            }
        }

        seen.ShouldBeGreaterThan(changes / 2);
        seen.ShouldBeLessThan(changes);
    }

    // A leaf is dropped, written as other digits or text, or doubled into a list.
    private static IEnumerable<Action<JsonValue>> Changes =>
    [
        leaf => Drop(leaf),
        leaf => leaf.ReplaceWith(leaf.GetValueKind() == JsonValueKind.Number ? JsonNode.Parse(leaf.ToJsonString() + "0") : JsonValue.Create(leaf + "x")),
        leaf => leaf.ReplaceWith(new JsonArray(leaf.DeepClone())),
    ];

    private static void Drop(JsonValue leaf)
    {
        if (leaf.Parent is JsonArray list)
        {
            list.Remove(leaf);
        }
        else
        {
            leaf.Parent!.AsObject().Remove(leaf.GetPropertyName());
        }
    }

    private static IEnumerable<JsonValue> Places(JsonNode node) => node switch
    {
        JsonObject element => element.Select(member => member.Value!).ToList().SelectMany(Places),
        JsonArray list => list.Select(item => item!).ToList().SelectMany(Places),
        _ => [node.AsValue()],
    };

    private static bool IsKept(SessionEntry entry, JsonObject kept) => KeptAsSent.Is(entry.Resource, kept.ToElement(), ResourcePlaces.Of(Session, Ids));

    /// <summary>As a server gives it back: another id, its own version and instant.</summary>
    private static JsonObject Kept(SessionEntry entry)
    {
        var kept = JsonNode.Parse(ResourcePlaces.Lead(entry, Session, Ids).ToJsonString())!.AsObject();
        kept["meta"] ??= new JsonObject();
        kept["meta"]!["versionId"] = "4";
        kept["meta"]!["lastUpdated"] = "2026-03-02T09:00:00Z";
        return kept;
    }

    private static SessionBundle Bundle()
    {
        var session = MappedSessions.Session();
        return SessionBundle.Of(session.Bundle, session.Patient, new PatientMatch("7", "1", []));
    }
}
