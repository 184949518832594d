using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>A resource as bytes and as JSON. Whichever it was not made from is made when it is first asked for.</summary>
public sealed class ResourceText
{
    private readonly Lazy<ReadOnlyMemory<byte>> bytes;
    private readonly Lazy<JsonObject> json;

    private ResourceText(Lazy<ReadOnlyMemory<byte>> bytes, Lazy<JsonObject> json) => (this.bytes, this.json) = (bytes, json);

    /// <summary>UTF-8 JSON: what is sent without being written anew keeps every character.</summary>
    public ReadOnlyMemory<byte> Bytes => bytes.Value;

    /// <summary>The same; not to be changed.</summary>
    public JsonObject Json => json.Value;

    /// <summary>Of a resource that stands as it came.</summary>
    /// <param name="utf8">UTF-8 JSON, one object.</param>
    /// <exception cref="ArgumentException">It is not one object (at the first use of <see cref="Json"/>).</exception>
    public static ResourceText Of(ReadOnlyMemory<byte> utf8) => new(
        new(utf8),
        new(() => JsonNode.Parse(utf8.Span) as JsonObject ?? throw new ArgumentException("The text holds no resource.", nameof(utf8))));

    /// <summary>Of a resource that was made or changed here.</summary>
    /// <param name="resource">The resource; not changed afterwards.</param>
    public static ResourceText Of(JsonObject resource) => new(new(() => resource.ToBytes()), new(resource));
}
