using System.Buffers;
using System.Runtime.InteropServices;
using System.Text.Encodings.Web;
using System.Text.Json;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>
/// Turns a session into a transaction (R4 http.html#transaction). What the target already holds is updated where it lies,
/// whatever the rung; the rung says how the rest comes to be. A resource that keeps its own id goes out as the bytes it is.
/// </summary>
public static class TransactionRequest
{
    // Address, method and condition take less: the buffer need not grow.
    private const int BesideAResource = 512;

    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>UTF-8 JSON of the transaction, one entry for each of the session's, in their order.</summary>
    public static ReadOnlyMemory<byte> Build(SessionBundle bundle, Rung rung, RecordedSession recorded)
    {
        ArgumentNullException.ThrowIfNull(bundle);
        ArgumentNullException.ThrowIfNull(recorded);
        var bytes = new ArrayBufferWriter<byte>(bundle.Entries.Sum(entry => JsonMarshal.GetRawUtf8Value(entry.Resource).Length + BesideAResource));
        using (var json = new Utf8JsonWriter(bytes, Options))
        {
            json.WriteStartObject();
            json.WriteString("resourceType", "Bundle");
            json.WriteString("type", "transaction");
            json.WriteStartArray("entry");
            foreach (var entry in bundle.Entries)
            {
                var found = recorded.Found.GetValueOrDefault(entry.Index)?.Id;
                Write(json, entry, found ?? (rung == Rung.TransactionOfConditionalCreates ? null : entry.Id));
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        return bytes.WrittenMemory;
    }

    /// <param name="json">Written to.</param>
    /// <param name="entry">The resource.</param>
    /// <param name="id">Id it is updated under; null creates it, unless the target has one that answers the condition.</param>
    private static void Write(Utf8JsonWriter json, SessionEntry entry, string? id)
    {
        json.WriteStartObject();
        json.WriteString("fullUrl", entry.FullUrl);
        json.WritePropertyName("resource");
        json.WriteRawValue(JsonMarshal.GetRawUtf8Value(Under(entry, id)), skipInputValidation: true);
        json.WriteStartObject("request");
        json.WriteString("method", id is null ? "POST" : "PUT");
        json.WriteString("url", id is null ? entry.Type : $"{entry.Type}/{id}");
        if (id is null && entry.Condition is { } condition)
        {
            json.WriteString("ifNoneExist", condition);
        }

        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static JsonElement Under(SessionEntry entry, string? id)
    {
        if (id == entry.Id)
        {
            return entry.Resource;
        }

        var resource = entry.Resource.ToTree();
        if (id is null)
        {
            resource.Remove("id");
        }
        else
        {
            resource["id"] = id;
        }

        return resource.ToElement();
    }
}
