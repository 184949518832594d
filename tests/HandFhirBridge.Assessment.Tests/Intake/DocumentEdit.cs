using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace HandFhirBridge.Assessment.Tests.Intake;

/// <summary>Documents made from a good one by edits such as <c>trials[3].seconds = 0</c> or <c>- patient.birthDate</c>, separated by semicolons.</summary>
internal static partial class DocumentEdit
{
    public static byte[] Apply(string edits)
    {
        var document = JsonNode.Parse(File.ReadAllText(Examples.Clean))!;
        foreach (var edit in edits.Split(" ; "))
        {
            if (edit.StartsWith("- ", StringComparison.Ordinal))
            {
                Remove(document, edit[2..]);
            }
            else
            {
                var parts = edit.Split(" = ", 2);
                Set(document, parts[0], JsonNode.Parse(parts[1]));
            }
        }

        return Encoding.UTF8.GetBytes(document.ToJsonString());
    }

    private static void Set(JsonNode document, string path, JsonNode? value)
    {
        var (parent, last) = Parent(document, path);
        if (parent is JsonArray array)
        {
            var index = int.Parse(last, null);
            if (index == array.Count)
            {
                array.Add(value);
            }
            else
            {
                array[index] = value;
            }
        }
        else
        {
            parent[last] = value;
        }
    }

    private static void Remove(JsonNode document, string path)
    {
        var (parent, last) = Parent(document, path);
        if (parent is JsonArray array)
        {
            array.RemoveAt(int.Parse(last, null));
        }
        else
        {
            parent.AsObject().Remove(last).ShouldBeTrue();
        }
    }

    private static (JsonNode Parent, string Last) Parent(JsonNode document, string path)
    {
        var steps = Step().Matches(path).Select(m => m.Value).ToArray();
        var node = steps[..^1].Aggregate(document, (at, step) => at is JsonArray array ? array[int.Parse(step, null)]! : at[step]!);
        return (node, steps[^1]);
    }

    [GeneratedRegex(@"[^.\[\]]+")]
    private static partial Regex Step();
}
