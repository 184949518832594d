using System.Text.Json.Nodes;

namespace HandFhirBridge.Outcomes.Tests.Deidentification;

/// <summary>One invented value of each of the 18 categories, and resources that hold a value wherever FHIR has room for it.</summary>
internal static class Planted
{
    /// <summary>By paragraph of 45 CFR 164.514(b)(2)(i); for (C) what may not leave beside the year.</summary>
    public static IReadOnlyDictionary<char, string> Values { get; } = new Dictionary<char, string>
    {
        ['A'] = "Musterfrau-Quint", ['B'] = "Kornhausgasse 17 Zip 30991", ['C'] = "2026-03-02", ['D'] = "+1-555-010-7788", ['E'] = "+1-555-010-7799",
        ['F'] = "quint@mail.example", ['G'] = "900-12-3456", ['H'] = "MRN0077123", ['I'] = "HPB-5512-X", ['J'] = "ACC-990-221", ['K'] = "LIC-K-44871",
        ['L'] = "PLATE-ZG-5512", ['M'] = "SERIAL-M-8812", ['N'] = "https://people.example/quint", ['O'] = "192.0.2.77", ['P'] = "FINGERPRINT-0f9e", ['Q'] = "data:image/png;base64,iVBORw0QUINT",
        ['R'] = "UNIQUE-R-31415",
    };

    /// <summary>The resource with the value put into everything that can hold one: as it is, and inside longer texts.</summary>
    public static JsonObject In(JsonNode resource, string value)
    {
        var planted = (JsonObject)resource.DeepClone();
        Everywhere(planted, value);
        planted["id"] = value;
        planted["meta"] = new JsonObject { ["source"] = value, ["tag"] = new JsonArray(Coding(value)), ["security"] = new JsonArray(Coding(value)) };
        planted["implicitRules"] = value;
        planted["language"] = value;
        planted["text"] = new JsonObject { ["status"] = "additional", ["div"] = $"<div xmlns=\"http://www.w3.org/1999/xhtml\"><p>seen {value} today</p></div>" };
        planted["contained"] = new JsonArray(new JsonObject { ["resourceType"] = "Patient", ["id"] = value, ["name"] = new JsonArray(new JsonObject { ["text"] = value }) });
        planted["note"] = new JsonArray(new JsonObject { ["text"] = $"called {value}", ["authorString"] = value });
        planted["conclusion"] = $"as {value} said";
        planted["presentedForm"] = new JsonArray(new JsonObject { ["data"] = Convert.ToBase64String(System.Text.Encoding.UTF8.GetBytes(value)), ["title"] = value, ["url"] = value });
        planted["photo"] = new JsonArray(new JsonObject { ["data"] = value });
        planted["name"] = new JsonArray(new JsonObject { ["family"] = value });
        planted["address"] = new JsonArray(new JsonObject { ["city"] = value, ["postalCode"] = value });
        planted["telecom"] = new JsonArray(new JsonObject { ["system"] = "phone", ["value"] = value });
        planted["performer"] = new JsonArray(Reference(value));
        planted["encounter"] = Reference(value);
        planted["device"] = Reference(value);
        planted["method"] = new JsonObject { ["text"] = value };
        planted["_status"] = new JsonObject { ["extension"] = new JsonArray(Extension("https://other.example/x", value)) };
        planted["valueString"] = value;
        planted["somethingNew"] = new JsonObject { ["deep"] = new JsonArray(value) };
        planted["subject"] = Reference(value);
        planted["identifier"] = new JsonArray(
            [
                .. (resource["identifier"] as JsonArray ?? []).Select(i => i!.DeepClone()),
                new JsonObject { ["system"] = "https://clinic.example/numbers", ["value"] = value },
                new JsonObject { ["system"] = "https://handfhirbridge.example/identifier/trial", ["value"] = $"{value}/S-1/card-turning/left" },
                new JsonObject { ["system"] = "https://handfhirbridge.example/identifier/trial", ["value"] = $"north/S-1/{value}/left" },
                new JsonObject { ["system"] = "https://handfhirbridge.example/identifier/kit", ["value"] = $"north/{value}" },
            ]);
        return planted;
    }

    private static void Everywhere(JsonObject at, string value)
    {
        foreach (var nested in at.Select(p => p.Value).ToList().SelectMany(v => v is JsonArray several ? [.. several] : new[] { v }).OfType<JsonObject>())
        {
            Everywhere(nested, value);
        }

        // Elements of data types that hold text of any kind, and extensions of others and of ours in every object.
        foreach (var name in new[] { "text", "display", "unit", "valueString", "assigner" })
        {
            at[name] = value;
        }

        at["system"] = at["system"]?.DeepClone() ?? value;
        var extensions = at["extension"] as JsonArray ?? [];
        at["extension"] = new JsonArray(
            [
                .. extensions.Select(e => e!.DeepClone()),
                Extension("https://other.example/x", value),
                Extension(value, value),
                Extension("https://handfhirbridge.example/fhir/StructureDefinition/hfb-ext-outcome", value),
                new JsonObject { ["url"] = "https://handfhirbridge.example/fhir/StructureDefinition/hfb-ext-norm-source", ["extension"] = new JsonArray(Extension("source", value), Extension(value, value)) },
            ]);
    }

    private static JsonObject Extension(string url, string value) =>
        new() { ["url"] = url, ["valueString"] = value, ["valueCode"] = $"x {value}", ["valueReference"] = Reference(value), ["valueCodeableConcept"] = new JsonObject { ["text"] = value } };

    private static JsonObject Reference(string value) => new()
    {
        ["reference"] = $"https://host.example/{Uri.EscapeDataString(value)}/Patient/{Uri.EscapeDataString(value)}",
        ["display"] = value,
        ["identifier"] = new JsonObject { ["system"] = "https://clinic.example/mrn", ["value"] = value, ["assigner"] = new JsonObject { ["display"] = value } },
    };

    private static JsonObject Coding(string value) => new() { ["system"] = "https://clinic.example/codes", ["code"] = value, ["display"] = value };
}
