using System.Text.Json.Nodes;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Validation;
using Hl7.Fhir.Model;
using Item = Hl7.Fhir.Model.QuestionnaireResponse.ItemComponent;

namespace HandFhirBridge.Fhir.Extraction;

/// <summary>The session document that a checked response stands for, and the way back from its JSON paths to the answers.</summary>
internal sealed class ResponseDocument
{
    private readonly Dictionary<string, string> places = new(StringComparer.Ordinal) { [JsonPath.Root] = nameof(QuestionnaireResponse) };
    private readonly List<Problem> problems = [];
    private readonly JsonObject root = new() { ["schemaVersion"] = SessionSchema.Version };
    private readonly Finding finding;

    /// <param name="response">A response whose answers fit the questionnaire.</param>
    /// <param name="finding">Makes problems out of places.</param>
    public ResponseDocument(QuestionnaireResponse response, Finding finding)
    {
        this.finding = finding;
        Write(response.Item, nameof(QuestionnaireResponse), root, JsonPath.Root);
    }

    /// <summary>The document, UTF-8 JSON; digits of numbers as answered.</summary>
    public ReadOnlyMemory<byte> Utf8 => System.Text.Encoding.UTF8.GetBytes(root.ToJsonString());

    /// <summary>Answers that a document has no form for.</summary>
    public IReadOnlyList<Problem> Problems => problems;

    /// <summary>FHIRPath of the answer that stands, or should stand, at a JSON path.</summary>
    public string PlaceOf(string path)
    {
        for (string? at = path; at is not null; at = JsonPath.Parent(at))
        {
            if (places.TryGetValue(at, out var place))
            {
                return place;
            }
        }

        return nameof(QuestionnaireResponse);
    }

    private void Write(List<Item> items, string location, JsonObject owner, string path)
    {
        for (var i = 0; i < items.Count; i++)
        {
            var (item, place) = (items[i], $"{location}.item[{i}]");
            var link = item.LinkId ?? "";
            if (SessionQuestions.Lists.TryGetValue(link, out var list))
            {
                WriteEntry(item, place, list);
            }
            else if (SessionQuestions.Properties.TryGetValue(link, out var property))
            {
                WriteAnswers(item, place, owner, path, property);
            }
            else
            {
                Write(item.Item, place, owner, path);
            }
        }
    }

    private void WriteEntry(Item group, string place, string list)
    {
        var (holder, name, path) = Holder(root, JsonPath.Root, list, place);
        var entries = holder[name] as JsonArray ?? [];
        holder[name] = entries;
        var (entry, at) = (new JsonObject(), JsonPath.Item(path, entries.Count));
        places[at] = place;
        entries.Add(entry);
        Write(group.Item, place, entry, at);
    }

    private void WriteAnswers(Item item, string place, JsonObject owner, string path, string property)
    {
        var (holder, name, at) = Holder(owner, path, property, place);
        places[at] = $"{place}.answer[0].value";
        if (!SessionQuestions.Several.Contains(item.LinkId ?? ""))
        {
            holder[name] = item.Answer.Count == 0 ? null : Value(item.Answer[0].Value, places[at]);
            return;
        }

        holder[name] = new JsonArray([.. item.Answer.Select((answer, n) => Value(answer.Value, $"{place}.answer[{n}].value"))]);
        for (var n = 0; n < item.Answer.Count; n++)
        {
            places[JsonPath.Item(at, n)] = $"{place}.answer[{n}].value";
        }
    }

    private (JsonObject Holder, string Name, string Path) Holder(JsonObject owner, string path, string property, string place)
    {
        var names = property.Split('.');
        foreach (var name in names[..^1])
        {
            path = JsonPath.Property(path, name);
            places.TryAdd(path, place[..place.LastIndexOf('.')]);
            owner = (JsonObject)(owner[name] ??= new JsonObject());
        }

        return (owner, names[^1], JsonPath.Property(path, names[^1]));
    }

    private JsonNode? Value(DataType? value, string place) => value switch
    {
        Coding coding => coding.Code,
        FhirString text => text.Value,
        FhirBoolean flag => flag.Value,
        Integer number => number.Value,
        FhirDecimal number => number.Value,
        Date day => day.Value,
        FhirDateTime moment => moment.Value,
        Quantity quantity => Value(quantity, place),
        _ => null,
    };

    private JsonNode? Value(Quantity quantity, string place)
    {
        if (quantity.Comparator is not null)
        {
            problems.Add(finding.At(ExtractionProblems.Comparator, $"{place}.comparator", "A number of the set-up is measured, not a bound."));
        }

        return quantity.Code switch
        {
            Quantities.Second => quantity.Value,
            Quantities.Inch => new JsonObject { ["value"] = quantity.Value, ["unit"] = WireName.Of(LengthUnit.Inch) },
            _ => new JsonObject { ["value"] = quantity.Value, ["unit"] = WireName.Of(LengthUnit.Centimetre) },
        };
    }
}
