using System.Collections.Immutable;
using System.Text.Json;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>The set-up in canonical JSON.</summary>
internal static class SetupWriting
{
    public static void Write(Utf8JsonWriter json, Setup setup)
    {
        json.WriteStartObject("setup");
        json.WriteString("glasses", WireName.Of(setup.Glasses));
        json.WriteBoolean("templateBoard", setup.TemplateBoard);
        json.WriteDecimal("capSeconds", setup.CapSeconds);
        Write(json, "tableHeight", setup.TableHeight);
        Write(json, "chairHeight", setup.ChairHeight);
        Write(json, "edgeToItems", setup.EdgeToItems);
        Write(json, "betweenItems", setup.BetweenItems);
        Write(json, setup.ItemsReplaced);
        if (setup.Kit is { } kit)
        {
            json.WriteStartObject("kit");
            json.WriteString("name", kit.Name);
            json.WriteText("serialNumber", kit.SerialNumber);
            json.WriteEndObject();
        }

        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, string name, Length? length)
    {
        if (length is not null)
        {
            json.WriteStartObject(name);
            json.WriteNumber("value", length.Value);
            json.WriteString("unit", WireName.Of(length.Unit));
            json.WriteEndObject();
        }
    }

    private static void Write(Utf8JsonWriter json, ImmutableArray<ItemReplaced> replaced)
    {
        if (replaced.IsEmpty)
        {
            return;
        }

        json.WriteStartArray("itemsReplaced");
        foreach (var item in replaced)
        {
            json.WriteStartObject();
            json.WriteString("item", item.Item);
            json.WriteString("replacedBy", item.ReplacedBy);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
