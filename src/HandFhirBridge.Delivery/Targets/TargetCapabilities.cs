using System.Collections.Immutable;
using System.Text.Json;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>What a target declares in its CapabilityStatement, and when it was read.</summary>
/// <param name="ReadAt">When, UTC.</param>
/// <param name="FhirVersion">As declared; null if the target declares nothing.</param>
/// <param name="Transaction">Whether transactions are taken; null if not declared.</param>
/// <param name="Resources">By type; a type that is missing is not declared.</param>
public sealed record TargetCapabilities(
    DateTimeOffset ReadAt, string? FhirVersion, bool? Transaction, ImmutableDictionary<string, ResourceCapability> Resources)
{
    /// <summary>Whether batches are declared.</summary>
    public bool Batch { get; init; }

    /// <summary>True unless another version of FHIR than R4 (4.0.x) is declared.</summary>
    public bool MayBeR4 => FhirVersion is null || FhirVersion.StartsWith("4.0", StringComparison.Ordinal);

    /// <summary>Of a target that tells nothing: everything is then found out by trying.</summary>
    public static TargetCapabilities Undeclared(DateTimeOffset readAt) => new(readAt, null, null, ImmutableDictionary<string, ResourceCapability>.Empty);

    /// <summary>Reads a CapabilityStatement.</summary>
    public static TargetCapabilities Of(JsonElement statement, DateTimeOffset readAt)
    {
        var rest = statement.Objects("rest").FirstOrDefault(r => r.Text("mode") == "server");
        var interactions = rest.Objects("interaction").Select(i => i.Text("code")).ToList();
        return new(
            readAt,
            statement.Text("fhirVersion"),
            interactions.Count == 0 ? null : interactions.Contains("transaction"),
            rest.Objects("resource").Where(r => r.Text("type") is not null).DistinctBy(r => r.Text("type"))
                .ToImmutableDictionary(r => r.Text("type")!, Read))
        {
            Batch = interactions.Contains("batch"),
        };
    }

    /// <summary>Rungs worth trying, in order.</summary>
    /// <param name="types">Resource types of the whole session.</param>
    public ImmutableArray<Rung> Rungs(IEnumerable<string> types)
    {
        var all = types.ToHashSet(StringComparer.Ordinal);
        return
        [
            .. Transaction == false ? [] : Transactions(all),
            .. Enumerable.Repeat(Rung.SingleWrites, MayCreate(all) ? 1 : 0),
            .. Enumerable.Repeat(Rung.ObservationsAndDocument, MayCreate(["Observation", "DocumentReference"]) ? 1 : 0),
            .. Enumerable.Repeat(Rung.DocumentAlone, MayCreate(["DocumentReference"]) ? 1 : 0),
        ];
    }

    /// <summary>True if a PUT under an id of ours is declared to create each of these types, so that repeating it makes no second one.</summary>
    public bool DeclaresUpdateCreate(IEnumerable<string> types) => types.All(type => Resources.GetValueOrDefault(type)?.UpdateCreate == true);

    private ImmutableArray<Rung> Transactions(IReadOnlyCollection<string> types)
    {
        var declared = types.Select(type => Resources.GetValueOrDefault(type)).ToList();
        var updates = All(declared.Select(r => r?.UpdateCreate));
        var creates = All(declared.Select(r => r?.ConditionalCreate));
        // Where update as create is not declared, a target could give ids of its own and do so at each repeat: what is declared goes first.
        return (updates, creates) switch
        {
            (false, false) => [],
            (false, _) => [Rung.TransactionOfConditionalCreates],
            (_, false) => [Rung.TransactionOfUpdates],
            (null, true) => [Rung.TransactionOfConditionalCreates, Rung.TransactionOfUpdates],
            _ => [Rung.TransactionOfUpdates, Rung.TransactionOfConditionalCreates],
        };
    }

    /// <summary>A target that lists resource types does not take one that it leaves out; one that lists none may take any.</summary>
    private bool MayCreate(IEnumerable<string> types) =>
        Resources.IsEmpty || types.All(type => Resources.TryGetValue(type, out var declared) && declared.Create != false);

    private static ResourceCapability Read(JsonElement resource)
    {
        var updateCreate = resource.Flag("updateCreate");
        var interactions = resource.Objects("interaction").Select(i => i.Text("code")).ToList();
        return new(
            updateCreate,
            resource.Flag("conditionalCreate"),
            interactions.Count == 0 ? null : interactions.Contains("create") || (updateCreate == true && interactions.Contains("update")));
    }

    /// <summary>False if one is declared false, true if all are declared true, else null.</summary>
    private static bool? All(IEnumerable<bool?> flags)
    {
        var list = flags.ToList();
        return list.Contains(false) ? false : list.Contains(null) ? null : true;
    }
}
