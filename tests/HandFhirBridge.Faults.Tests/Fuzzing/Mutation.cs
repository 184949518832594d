using System.Text;
using System.Text.Json.Nodes;

namespace HandFhirBridge.Faults.Tests.Fuzzing;

/// <summary>Changes a document as broken programs, broken transmissions and malice do: structure, types, numbers, text, bytes.</summary>
/// <param name="random">Chooses.</param>
internal sealed class Mutation(Random random)
{
    private static readonly string[] Texts =
    [
        "", " ", "\0", "null", "'; DROP TABLE sessions; --", "<script>alert(1)</script>", "../../etc/passwd", "%00%2e%2e", "{{7*7}}", "${jndi:x}",
        "e\u0301", "\u00e9", "\u202e\u0000", "\ufeffx", "\ud83d\ude00", "\uffff", "Straße", "İ", "１２", "𝟙", "2026-02-30", "0000-01-01", "9999-12-31T23:59:59+14:00",
        "2026-03-02T09:05:00", "2026-03-02T09:05:00-99:99", "-1", "1e400", "NaN", new('x', 10_000),
    ];

    private static readonly string[] Numbers =
        ["-0", "0", "-1", "1e400", "-1e-400", "1e28", "99999999999999999999", "0.1000000000000000000000000000001", "9223372036854775808", "1E+2", "12.40", "0.0000000000001"];

    /// <summary>One to four changes of a document's content, and now and then of its bytes.</summary>
    public byte[] Apply(byte[] document)
    {
        var root = JsonNode.Parse(document)!;
        for (var change = random.Next(2) == 0 ? 1 : random.Next(1, 5); change > 0; change--)
        {
            Change(root);
        }

        var text = root.ToJsonString();
        return random.Next(4) > 0 ? Encoding.UTF8.GetBytes(text) : Bytes(Encoding.UTF8.GetBytes(Structure(text)));
    }

    private void Change(JsonNode root)
    {
        var nodes = Below(root).Where(n => n.Parent is not null).ToList();
        if (nodes.Count == 0)
        {
            return;
        }

        var node = nodes[random.Next(nodes.Count)];
        switch (random.Next(10))
        {
            case 0: Remove(node); break;
            case 1: node.ReplaceWith(nodes[random.Next(nodes.Count)].DeepClone()); break;
            case 2: node.ReplaceWith(JsonValue.Create(Texts[random.Next(Texts.Length)])); break;
            case 3: node.ReplaceWith(JsonNode.Parse(Numbers[random.Next(Numbers.Length)])); break;
            case 4: node.ReplaceWith<JsonNode?>(random.Next(3) switch { 0 => new JsonObject(), 1 => new JsonArray(), _ => JsonValue.Create(random.Next(2) == 0) }); break;
            case 5: Repeat(node); break;
            case 6 or 7 or 8: Vary(node); break;
            default: Rename(node); break;
        }
    }

    /// <summary>Another value of the same kind, which more often passes the reader.</summary>
    private void Vary(JsonNode node)
    {
        switch (node.GetValueKind())
        {
            case System.Text.Json.JsonValueKind.Number:
                node.ReplaceWith(JsonNode.Parse(random.Next(2) == 0 ? Numbers[random.Next(Numbers.Length)] : $"{random.Next(200)}.{random.Next(100):00}"));
                break;
            case System.Text.Json.JsonValueKind.String:
                var text = node.GetValue<string>();
                node.ReplaceWith(JsonValue.Create(random.Next(2) == 0 ? text + Texts[random.Next(Texts.Length)] : Texts[random.Next(Texts.Length)] + text));
                break;
            default:
                Repeat(node);
                break;
        }
    }

    private static void Remove(JsonNode node)
    {
        if (node.Parent is JsonObject parent)
        {
            parent.Remove(node.GetPropertyName());
        }
        else
        {
            ((JsonArray)node.Parent!).Remove(node);
        }
    }

    private void Repeat(JsonNode node)
    {
        if (node.Parent is JsonArray list)
        {
            for (var copies = random.Next(1, 50); copies > 0; copies--)
            {
                list.Insert(random.Next(list.Count + 1), node.DeepClone());
            }
        }
        else
        {
            node.Parent!.AsObject().TryAdd(node.GetPropertyName() + "2", node.DeepClone());
        }
    }

    private void Rename(JsonNode node)
    {
        if (node.Parent is JsonObject parent)
        {
            var name = node.GetPropertyName();
            parent.Remove(name);
            parent.TryAdd(random.Next(3) switch { 0 => name.ToUpperInvariant(), 1 => Texts[random.Next(Texts.Length - 1)], _ => name + " " }, node);
        }
    }

    /// <summary>What no tree can hold: a name twice, nesting without end, a null, values after the end.</summary>
    private string Structure(string text) => random.Next(6) switch
    {
        0 => text.Replace("\"site\":", "\"site\":\"x\",\"site\":", StringComparison.Ordinal),
        1 => text.Replace("\"trials\":", $"\"trials\":{new string('[', random.Next(1, 5_000))},\"x\":", StringComparison.Ordinal),
        2 => text.Replace("\"setup\":{", "\"setup\":null,\"x\":{", StringComparison.Ordinal),
        3 => text + text,
        4 => string.Concat(Enumerable.Repeat("{\"a\":", 2_000)) + text,
        _ => text,
    };

    private byte[] Bytes(byte[] bytes)
    {
        switch (random.Next(5))
        {
            case 0:
                return bytes[..random.Next(bytes.Length)];
            case 1:
                bytes[random.Next(bytes.Length)] = (byte)random.Next(256);
                return bytes;
            case 2:
                var at = random.Next(bytes.Length);
                return [.. bytes[..at], 0xC3, 0x28, 0xFF, .. bytes[at..]];
            case 3:
                return [.. Encoding.UTF8.Preamble, .. bytes];
            default:
                return bytes;
        }
    }

    private static IEnumerable<JsonNode> Below(JsonNode node) => node switch
    {
        JsonObject o => o.Where(p => p.Value is not null).SelectMany(p => Below(p.Value!)).Prepend(node),
        JsonArray a => a.OfType<JsonNode>().SelectMany(Below).Prepend(node),
        _ => [node],
    };
}
