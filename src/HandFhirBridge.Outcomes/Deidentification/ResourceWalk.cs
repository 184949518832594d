using System.Text.Json;
using System.Text.Json.Nodes;
using HandFhirBridge.Outcomes.Gather.Reading;

namespace HandFhirBridge.Outcomes.Deidentification;

/// <summary>Takes what may leave out of one resource.</summary>
/// <param name="pseudonyms">Names in place of ids.</param>
/// <param name="dates">Dates as they may leave.</param>
/// <param name="report">Takes the counts.</param>
/// <param name="source">Where the resource was gathered.</param>
/// <param name="type">Its type.</param>
/// <param name="daysBack">Days its patient's dates are moved back by; null if the patient is not known.</param>
internal sealed class ResourceWalk(Pseudonyms pseudonyms, CoarseDates dates, RemovalReport report, string source, string type, int? daysBack)
{
    /// <summary>An object with the elements that may leave; null if none may.</summary>
    public JsonObject? Object(JsonElement element, Allowed allowed)
    {
        var kept = new JsonObject();
        foreach (var property in element.EnumerateObject())
        {
            if (allowed.Elements!.TryGetValue(property.Name, out var what) && Several(property.Name, property.Value, what) is { } value)
            {
                kept[property.Name] = value;
            }
            else if (what is null && !(allowed.Treatment == Treatment.Extension && property.Name is "url" or "extension"))
            {
                Remove(property.Name, property.Value);
            }
        }

        return kept.Count > 0 ? kept : null;
    }

    private JsonNode? Several(string name, JsonElement element, Allowed what)
    {
        if (element.ValueKind != JsonValueKind.Array)
        {
            return One(name, element, what);
        }

        var items = element.EnumerateArray().Select(item => One(name, item, what)).OfType<JsonNode>().ToArray();
        return items.Length > 0 ? new JsonArray(items) : null;
    }

    private JsonNode? One(string name, JsonElement element, Allowed what) => what.Treatment switch
    {
        Treatment.Number => element.ValueKind == JsonValueKind.Number ? JsonValue.Create(element) : Remove(name, element),
        Treatment.Truth => element.ValueKind is JsonValueKind.True or JsonValueKind.False ? JsonValue.Create(element) : Remove(name, element),
        Treatment.Identifier or Treatment.Extension or Treatment.Ages or Treatment.Coding or Treatment.Elements =>
            element.ValueKind == JsonValueKind.Object ? Whole(name, element, what) : Remove(name, element),
        _ => element.ValueKind == JsonValueKind.String ? Word(name, element, what.Treatment) : Remove(name, element),
    };

    private JsonNode? Whole(string name, JsonElement element, Allowed what) => what.Treatment switch
    {
        Treatment.Identifier => Identifier(element),
        Treatment.Extension => Extension(element, what),
        Treatment.Ages => Ages(element),
        Treatment.Coding when Text(element, "system") is not { } system || !AllowedElements.IsCommon(system) => Remove(name, element),
        _ => Object(element, what),
    };

    private JsonValue? Word(string name, JsonElement element, Treatment treatment)
    {
        var text = element.GetString()!;
        var kept = treatment switch
        {
            Treatment.Word => HarmlessText.IsWord(text) ? text : null,
            Treatment.Code => HarmlessText.IsCode(text) ? text : null,
            Treatment.System => AllowedElements.IsCommon(text) ? text : null,
            Treatment.Date => dates.Of(text, daysBack),
            Treatment.Id => pseudonyms.Resource(source, type, text),
            Treatment.Reference => pseudonyms.Reference(source, text),
            _ => throw new ArgumentOutOfRangeException(nameof(treatment), treatment, null),
        };
        switch (treatment)
        {
            case Treatment.Date when kept != text:
                report.Count(SafeHarborRule.CDate);
                break;
            case Treatment.Id or Treatment.Reference when kept is not null:
                report.Count(SafeHarborRule.ROther);
                break;
            case var _ when kept is null:
                Remove(name, element);
                break;
        }

        return kept is null ? null : JsonValue.Create(kept);
    }

    private JsonObject? Identifier(JsonElement identifier)
    {
        Remove("identifier", identifier);
        return Text(identifier, "system") is { } system && Text(identifier, "value") is { } value && pseudonyms.Identifier(system, value) is { } pseudonym
            ? new JsonObject { ["system"] = system, ["value"] = pseudonym }
            : null;
    }

    private JsonObject? Extension(JsonElement extension, Allowed what)
    {
        if (Text(extension, "url") is not { } url || !AllowedElements.IsOwn(url))
        {
            Remove("extension", extension);
            return null;
        }

        var (values, nested) = (Object(extension, what), Nested(extension, what));
        return values is null && nested is null ? null : With(url, values, nested);
    }

    // Only the norm's extension has parts; of them two are strings.
    private JsonArray? Nested(JsonElement extension, Allowed what)
    {
        var parts = new JsonArray();
        if (extension.TryGetProperty("extension", out var nested) && nested.ValueKind == JsonValueKind.Array)
        {
            foreach (var part in nested.EnumerateArray().Where(p => p.ValueKind == JsonValueKind.Object))
            {
                if (Text(part, "url") is { } url && AllowedElements.PartsOfNorm.Contains(url) && Part(url, part, what) is { } kept)
                {
                    parts.Add(With(url, kept, null));
                }
                else
                {
                    Remove("extension", part);
                }
            }
        }

        return parts.Count > 0 ? parts : null;
    }

    private JsonObject? Part(string url, JsonElement part, Allowed what) => (url, Text(part, "valueString")) switch
    {
        ("normSet", { } set) => new JsonObject { ["valueString"] = pseudonyms.NormSet(set) },
        ("version", { } version) => new JsonObject { ["valueString"] = pseudonyms.NormVersion(version) },
        _ => Object(part, what),
    };

    private static JsonObject With(string url, JsonObject? values, JsonArray? nested)
    {
        var extension = new JsonObject { ["url"] = url };
        if (nested is not null)
        {
            extension["extension"] = nested;
        }

        foreach (var (name, value) in values ?? [])
        {
            extension[name] = value!.DeepClone();
        }

        return extension;
    }

    /// <summary>A span that begins above 89 years becomes 90 and older (C).</summary>
    private JsonObject? Ages(JsonElement ages)
    {
        if (ages.TryGetProperty("low", out var low) && low.ValueKind == JsonValueKind.Object && low.TryGetProperty("value", out var from)
            && from.ValueKind == JsonValueKind.Number && from.TryGetDecimal(out var years) && years > CoarseDates.OldestAge)
        {
            report.Count(SafeHarborRule.CDate);
            return new JsonObject { ["low"] = new JsonObject { ["value"] = CoarseDates.OldestAge + 1, ["system"] = "http://unitsofmeasure.org", ["code"] = "a" } };
        }

        return Object(ages, AllowedElements.Ages);
    }

    private static string? Text(JsonElement element, string name) => OwnResources.Text(element, name);

    private JsonNode? Remove(string name, JsonElement element)
    {
        foreach (var item in element.ValueKind == JsonValueKind.Array ? element.EnumerateArray().ToArray() : [element])
        {
            report.Count(RuleOf.Removed(name, item));
        }

        return null;
    }
}
