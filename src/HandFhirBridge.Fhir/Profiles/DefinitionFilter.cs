using System.Collections.Frozen;
using System.Text.Json;

namespace HandFhirBridge.Fhir.Profiles;

/// <summary>
/// Leaves out of a StructureDefinition what no verdict depends on: explanations, mappings to other standards, the
/// differential. What stays is about a quarter, and reading it takes accordingly less time before a first verdict.
/// </summary>
internal static class DefinitionFilter
{
    private static readonly FrozenSet<string> OfDefinition = Set(
        "text", "meta", "differential", "mapping", "publisher", "contact", "date", "purpose", "copyright",
        "description", "title", "jurisdiction", "useContext", "keyword", "identifier", "experimental", "name");

    private static readonly FrozenSet<string> OfElement = Set(
        "short", "definition", "comment", "requirements", "alias", "mapping", "example", "orderMeaning",
        "isModifier", "isModifierReason", "isSummary", "mustSupport", "label", "code", "condition", "meaningWhenMissing");

    private static readonly FrozenSet<string> OfConstraint = Set("xpath", "requirements");
    private static readonly FrozenSet<string> OfBinding = Set("description", "extension");
    private static readonly FrozenSet<string> Nothing = Set();

    private enum Part
    {
        Definition,
        Snapshot,
        Element,
        Constraint,
        Binding,
        Other,
    }

    /// <summary>The definition without what no verdict depends on.</summary>
    /// <param name="definition">UTF-8 JSON of one StructureDefinition.</param>
    internal static byte[] Reduce(ReadOnlySpan<byte> definition)
    {
        var reader = new Utf8JsonReader(definition);
        using var reduced = new MemoryStream(definition.Length / 3);
        using (var writer = new Utf8JsonWriter(reduced))
        {
            reader.Read();
            CopyValue(ref reader, writer, Part.Definition);
        }

        return reduced.ToArray();
    }

    private static void CopyValue(ref Utf8JsonReader reader, Utf8JsonWriter writer, Part part)
    {
        switch (reader.TokenType)
        {
            case JsonTokenType.StartObject:
                CopyObject(ref reader, writer, part);
                break;
            case JsonTokenType.StartArray:
                CopyArray(ref reader, writer, part);
                break;
            case JsonTokenType.String:
                writer.WriteStringValue(reader.GetString());
                break;
            default:
                writer.WriteRawValue(reader.ValueSpan);
                break;
        }
    }

    private static void CopyObject(ref Utf8JsonReader reader, Utf8JsonWriter writer, Part part)
    {
        var leftOut = LeftOut(part);
        writer.WriteStartObject();
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var name = reader.GetString()!;
            reader.Read();
            if (leftOut.Contains(name.TrimStart('_')))
            {
                reader.Skip();
                continue;
            }

            writer.WritePropertyName(name);
            CopyValue(ref reader, writer, Below(part, name));
        }

        writer.WriteEndObject();
    }

    private static void CopyArray(ref Utf8JsonReader reader, Utf8JsonWriter writer, Part part)
    {
        writer.WriteStartArray();
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
        {
            CopyValue(ref reader, writer, part);
        }

        writer.WriteEndArray();
    }

    private static Part Below(Part part, string name) => (part, name) switch
    {
        (Part.Definition, "snapshot") => Part.Snapshot,
        (Part.Snapshot, "element") => Part.Element,
        (Part.Element, "constraint") => Part.Constraint,
        (Part.Element, "binding") => Part.Binding,
        _ => Part.Other,
    };

    private static FrozenSet<string> LeftOut(Part part) => part switch
    {
        Part.Definition => OfDefinition,
        Part.Element => OfElement,
        Part.Constraint => OfConstraint,
        Part.Binding => OfBinding,
        _ => Nothing,
    };

    private static FrozenSet<string> Set(params string[] names) => names.ToFrozenSet(StringComparer.Ordinal);
}
