using System.Text.Json;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>One value of the document, or its absence, with the place it stands at. Each reading reports what is wrong and gives null.</summary>
/// <param name="Element">Null if absent.</param>
/// <param name="Path">JSON path.</param>
/// <param name="Problems">Where problems go.</param>
internal readonly record struct Field(JsonElement? Element, string Path, ProblemList Problems)
{
    public bool IsPresent => Element is not null;

    public string? Raw => Element?.GetRawText();

    /// <summary>Text of any content.</summary>
    public string? String()
    {
        if (Element is not { } element)
        {
            return null;
        }

        if (element.ValueKind == JsonValueKind.String)
        {
            return element.GetString();
        }

        Problems.WrongType(Path, element, "text");
        return null;
    }

    public bool? Flag()
    {
        switch (Element?.ValueKind)
        {
            case null: return null;
            case JsonValueKind.True: return true;
            case JsonValueKind.False: return false;
            default:
                Problems.WrongType(Path, Element.Value, "true or false");
                return null;
        }
    }

    /// <summary>A member written by its name.</summary>
    public T? Choice<T>()
        where T : struct, Enum
    {
        if (String() is not { } written)
        {
            return null;
        }

        var member = WireName.Find<T>(written);
        if (member is null)
        {
            Problems.NotAmong(IntakeProblems.UnknownChoice, Path, written, WireName.All<T>());
        }

        return member;
    }

    public ObjectFields? Object(params ReadOnlySpan<string> known) =>
        Element is { } element ? ObjectFields.Open(element, Path, Problems, known) : null;

    /// <summary>Items of an array; none if absent or no array. An item null is reported.</summary>
    public IReadOnlyList<Field> Items()
    {
        if (Element is not { } element)
        {
            return [];
        }

        if (element.ValueKind != JsonValueKind.Array)
        {
            Problems.WrongType(Path, element, "an array");
            return [];
        }

        var (path, problems) = (Path, Problems);
        return [.. element.EnumerateArray().Select((item, i) => new Field(item, JsonPath.Item(path, i), problems))];
    }
}
