using System.Globalization;
using System.Text.Json;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Values that may be absent; null writes nothing.</summary>
internal static class ValueWriting
{
    public static void WriteText(this Utf8JsonWriter json, string name, string? text)
    {
        if (text is not null)
        {
            json.WriteString(name, text);
        }
    }

    /// <summary>Digits as entered, trailing zeros included.</summary>
    public static void WriteDecimal(this Utf8JsonWriter json, string name, decimal? number)
    {
        if (number is { } value)
        {
            json.WriteNumber(name, value);
        }
    }

    /// <summary>RFC 3339; +00:00 is written as Z, as both mean the same.</summary>
    public static void WriteInstant(this Utf8JsonWriter json, string name, DateTimeOffset? instant)
    {
        if (instant is { } value)
        {
            var offset = value.Offset == TimeSpan.Zero ? "'Z'" : "zzz";
            json.WriteString(name, value.ToString($"yyyy-MM-dd'T'HH:mm:ss.FFFFFFF{offset}", CultureInfo.InvariantCulture));
        }
    }

    public static void WriteIdentifier(this Utf8JsonWriter json, string name, BusinessIdentifier? identifier)
    {
        if (identifier is null)
        {
            return;
        }

        json.WriteStartObject(name);
        json.WriteString("system", identifier.System);
        json.WriteString("value", identifier.Value);
        json.WriteEndObject();
    }

    /// <summary>An array of words; an empty one writes nothing.</summary>
    public static void WriteWords(this Utf8JsonWriter json, string name, IReadOnlyCollection<string> words)
    {
        if (words.Count == 0)
        {
            return;
        }

        json.WriteStartArray(name);
        foreach (var word in words)
        {
            json.WriteStringValue(word);
        }

        json.WriteEndArray();
    }
}
