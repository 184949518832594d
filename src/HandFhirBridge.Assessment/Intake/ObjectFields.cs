using System.Text.Json;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>The properties of one JSON object. Reports those given twice and those nobody knows; null counts as absent.</summary>
internal sealed class ObjectFields
{
    private readonly Dictionary<string, JsonElement> _values = new(StringComparer.Ordinal);
    private readonly HashSet<string> _probablyMisspelt = new(StringComparer.Ordinal);

    private ObjectFields(string path, ProblemList problems)
    {
        Path = path;
        Problems = problems;
    }

    public string Path { get; }

    public ProblemList Problems { get; }

    /// <summary>Opens an object that may have the properties <paramref name="known"/>; null (and a problem) if it is none.</summary>
    public static ObjectFields? Open(JsonElement element, string path, ProblemList problems, params ReadOnlySpan<string> known)
    {
        if (element.ValueKind != JsonValueKind.Object)
        {
            problems.WrongType(path, element, "an object");
            return null;
        }

        var fields = new ObjectFields(path, problems);
        fields.Take(element, known.ToArray());
        return fields;
    }

    /// <summary>A property that may be left out.</summary>
    public Field Optional(string name) =>
        new(_values.TryGetValue(name, out var value) ? value : null, JsonPath.Property(Path, name), Problems);

    /// <summary>A property that must be there; reported if it is not.</summary>
    public Field Required(string name)
    {
        var field = Optional(name);
        if (field.Element is null && !_probablyMisspelt.Contains(name))
        {
            Problems.Add(IntakeProblems.MissingProperty, field.Path, "is missing.", remedy: $"Add \"{name}\" to {JsonPath.Label(Path)}.");
        }

        return field;
    }

    private void Take(JsonElement element, string[] known)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var property in element.EnumerateObject())
        {
            var path = JsonPath.Property(Path, property.Name);
            if (!seen.Add(property.Name))
            {
                Problems.Add(IntakeProblems.DuplicateProperty, path, "is given twice.", property.Value.GetRawText());
            }
            else if (!known.Contains(property.Name))
            {
                Unknown(property, path, known);
            }
            else if (property.Value.ValueKind != JsonValueKind.Null)
            {
                _values.Add(property.Name, property.Value);
            }
        }
    }

    // A misspelt required name is one fault, not two: the property meant is not reported as missing as well.
    private void Unknown(JsonProperty property, string path, string[] known)
    {
        var meant = NearestName.Of(property.Name, known);
        if (meant is not null)
        {
            _probablyMisspelt.Add(meant);
        }

        Problems.Add(IntakeProblems.UnknownProperty, path, "is not a property of the session document.", property.Value.GetRawText(),
            meant is null ? $"Remove it; known here are {string.Join(", ", known)}." : $"Did you mean \"{meant}\"? Rename it, or remove it.");
    }
}
