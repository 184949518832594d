using System.Text.Json;
using HandFhirBridge.Outcomes.Views;
using HandFhirBridge.Outcomes.Views.Definitions;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Outcomes.Tests.Views;

/// <summary>Runs one published case and says in what it fails; null if in nothing.</summary>
internal static class PublishedCase
{
    // The files hold R4 resources without some mandatory elements: what counts is that they are read.
    private static readonly FhirJsonDeserializer Deserializer = new(new DeserializerSettings().UsingMode(DeserializationMode.Recoverable));

    public static string? Failure(JsonElement file, JsonElement test)
    {
        var expectsError = test.TryGetProperty("expectError", out var error) && error.GetBoolean();
        try
        {
            var runner = new ViewRunner(ViewDefinitionReader.Read(test.GetProperty("view")));
            var rows = file.GetProperty("resources").EnumerateArray()
                .SelectMany(r => runner.Rows(Deserializer.DeserializeResource(r.GetRawText()))).ToList();
            return expectsError ? "an error was expected" : Difference(runner, rows, test);
        }
        catch (ViewException refused)
        {
            return expectsError ? null : refused.Message;
        }
    }

    private static string? Difference(ViewRunner runner, List<object?[]> rows, JsonElement test)
    {
        if (test.TryGetProperty("expectColumns", out var columns) && !columns.EnumerateArray().Select(c => c.GetString()).SequenceEqual(runner.Columns.Select(c => c.Name)))
        {
            return $"columns are {string.Join(", ", runner.Columns.Select(c => c.Name))}";
        }

        // The order of rows is not given by the specification.
        var got = rows.Select(row => Canonical(runner.Columns.Zip(row, (c, v) => (c.Name, Json(v))))).Order(StringComparer.Ordinal).ToList();
        var expected = test.GetProperty("expect").EnumerateArray()
            .Select(row => Canonical(row.EnumerateObject().Select(p => (p.Name, Json(p.Value))))).Order(StringComparer.Ordinal).ToList();
        return got.SequenceEqual(expected) ? null : $"expected {string.Join(" ", expected)}, got {string.Join(" ", got)}";
    }

    private static string Canonical(IEnumerable<(string Name, string Value)> cells) =>
        $"{{{string.Join(", ", cells.OrderBy(c => c.Name, StringComparer.Ordinal).Select(c => $"{c.Name}: {c.Value}"))}}}";

    // Numbers are compared by value: 5 and 5.0 are the same number of JSON.
    private static string Json(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Array => $"[{string.Join(", ", value.EnumerateArray().Select(Json))}]",
        JsonValueKind.Number => value.GetDecimal().ToString("0.############", System.Globalization.CultureInfo.InvariantCulture),
        JsonValueKind.String => $"\"{value.GetString()}\"",
        _ => value.GetRawText(),
    };

    private static string Json(object? value) => Json(JsonSerializer.SerializeToElement(value));
}
