using System.Collections.Immutable;
using System.Text.Json;

namespace HandFhirBridge.Outcomes.Views.Definitions;

/// <summary>Reads a ViewDefinition. Elements it does not use (title, contact, extensions …) are passed over.</summary>
public static class ViewDefinitionReader
{
    /// <summary>Reads the definition in a text.</summary>
    /// <param name="json">One JSON object.</param>
    /// <exception cref="ViewException">It is not one, or an element of it cannot be used.</exception>
    public static ViewDefinition Read(ReadOnlyMemory<byte> json)
    {
        try
        {
            using var document = JsonDocument.Parse(json);
            return Read(document.RootElement);
        }
        catch (JsonException broken)
        {
            throw new ViewException(ViewProblems.NotAView.At("$", $"The view is not JSON: {broken.Message}"), broken);
        }
    }

    /// <summary>Reads the definition that is part of a document.</summary>
    /// <param name="json">The ViewDefinition.</param>
    /// <exception cref="ViewException">An element of it cannot be used.</exception>
    public static ViewDefinition Read(JsonElement json)
    {
        var view = new ViewElement(json, "$");
        if (json.ValueKind != JsonValueKind.Object)
        {
            throw new ViewException(ViewProblems.NotAView.At("$", "The view is not a JSON object."));
        }

        var resource = view.Required("resource").Text();
        var select = view.Required("select").Items().Select(Select).ToImmutableArray();
        if (select.IsEmpty)
        {
            throw view.Missing("select");
        }

        return new(
            view.Optional("name")?.Text() ?? "view",
            resource,
            [.. view.Many("constant").Select(ConstantReader.Read)],
            select,
            [.. view.Many("where").Select(where => Path(where.Required("path")))]);
    }

    private static ViewSelect Select(ViewElement element)
    {
        var (unnesting, over) = Over(element);
        return new(
            unnesting,
            over,
            [.. element.Many("column").Select(Column)],
            [.. element.Many("select").Select(Select)],
            [.. element.Many("unionAll").Select(Select)],
            element.Location);
    }

    private static (Unnesting Unnesting, ImmutableArray<ViewPath> Over) Over(ViewElement element)
    {
        var found = new List<(Unnesting, ImmutableArray<ViewPath>)>();
        foreach (var (name, unnesting) in new[] { ("forEach", Unnesting.ForEach), ("forEachOrNull", Unnesting.ForEachOrNull) })
        {
            if (element.Optional(name) is { } path)
            {
                found.Add((unnesting, [Path(path)]));
            }
        }

        if (element.Optional("repeat") is { } repeat)
        {
            found.Add((Unnesting.Repeat, [.. repeat.Items().Select(Path)]));
        }

        return found switch
        {
            [] => (Unnesting.None, []),
            [var one] => one,
            _ => throw new ViewException(ViewProblems.NotUnderstood.At(
                element.Location, "A selection has more than one of forEach, forEachOrNull and repeat.", remedy: "Put one of them in a selection within the other.")),
        };
    }

    private static ViewColumn Column(ViewElement element)
    {
        var name = element.Required("name");
        var text = name.Text();
        if (!char.IsAsciiLetter(text[0]) || !text.All(c => char.IsAsciiLetterOrDigit(c) || c == '_'))
        {
            throw new ViewException(ViewProblems.NotUnderstood.At(
                name.Location, $"\"{text}\" cannot be the name of a column.", text, "Use letters, digits and underscores, beginning with a letter."));
        }

        return new(
            text,
            Path(element.Required("path")),
            element.Optional("type")?.Text(),
            element.Optional("collection")?.Flag() ?? false,
            element.Optional("description")?.Text(),
            element.Many("tag").FirstOrDefault(tag => tag.Required("name").Text() == ViewColumn.SqlTypeTag)?.Required("value").Text());
    }

    private static ViewPath Path(ViewElement element) => new(element.Text(), element.Location);
}
