using System.Text.Json;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Assessment.Tests.Intake;
using Json.Schema;

namespace HandFhirBridge.Assessment.Tests.Sessions;

/// <summary>The published schema against an independent implementation of JSON Schema, draft 2020-12 (JsonSchema.Net).</summary>
public sealed class SessionSchemaTests
{
    private static readonly EvaluationOptions Options = new() { RequireFormatValidation = true, OutputFormat = OutputFormat.List };

    // What a schema of structure cannot know: rules over several fields, ids of the instrument, the clock, and how a number is written.
    private static readonly string[] OnReadingOnly =
    [
        "HFB1006", "HFB1015", "HFB1016", "HFB1104", "HFB1105", "HFB1106", "HFB1204", "HFB1205", "HFB1206", "HFB1207", "HFB1209", "HFB1301", "HFB1302",
        "HFB1307", "HFB1308", "HFB1309", "HFB1310", "HFB1311", "HFB1316", "HFB1317", "HFB1318", "HFB1319", "HFB1320", "HFB1321", "HFB1402", "HFB1405", "HFB1421",
        // Uniqueness by one property; and 1.0 is an integer to JSON Schema (JSON Schema Validation 2020-12, section 6.1.1).
        "HFB1014 $.precautions[6].precaution", "HFB1014 $.setup.itemsReplaced[1].item", "HFB1018 revision = 1.0",
    ];

    public static TheoryData<string> SessionFiles => SessionReaderTests.SessionFiles;

    public static TheoryData<string, string, string> Faults => FaultTable.Rows;

    public static TheoryData<string> BadFiles => [.. Directory.EnumerateFiles(Path.Combine(Examples.Folder, "bad"), "*.json").Select(f => Path.GetFileName(f))];

    [Fact]
    public void Schema_Itself_IsValidAgainstItsMetaSchema()
    {
        using var stream = SessionSchema.Open();
        using var schema = JsonDocument.Parse(stream);

        MetaSchemas.Draft202012.Evaluate(schema.RootElement, Options).IsValid.ShouldBeTrue();
    }

    [Fact]
    public void Schema_EveryProperty_StandsInTheDocumentation()
    {
        using var stream = SessionSchema.Open();
        using var schema = JsonDocument.Parse(stream);
        var page = File.ReadAllText(Path.Combine(Examples.Root, "docs", "session-document.md"));

        var names = Properties(schema.RootElement).Distinct().ToArray();
        names.Length.ShouldBeGreaterThan(50);
        names.Where(n => !page.Contains($"`{n}`", StringComparison.Ordinal) && !page.Contains($".{n}`", StringComparison.Ordinal)).ShouldBeEmpty();
    }

    [Theory, MemberData(nameof(SessionFiles))]
    public void Evaluate_ExampleSession_IsValid(string file)
    {
        using var document = JsonDocument.Parse(File.ReadAllBytes(Path.Combine(Examples.Folder, file)));

        IsValid(document.RootElement).ShouldBeTrue();
    }

    [Theory, MemberData(nameof(Faults))]
    public void Evaluate_OneFault_IsInvalidUnlessTheRuleIsCheckedOnReadingOnly(string code, string path, string edits)
    {
        using var document = JsonDocument.Parse(DocumentEdit.Apply(edits));

        IsValid(document.RootElement).ShouldBe(
            OnReadingOnly.Contains(code) || OnReadingOnly.Contains($"{code} {path}") || OnReadingOnly.Contains($"{code} {edits}"), $"{code} at {path}");
    }

    [Theory, MemberData(nameof(BadFiles))]
    public void Evaluate_BadExample_IsInvalidUnlessTheRuleIsCheckedOnReadingOnly(string file)
    {
        var expected = File.ReadLines(Path.ChangeExtension(Path.Combine(Examples.Folder, "bad", file), ".expected.txt")).First();
        if (expected is "HFB1002" or "HFB1003" or "HFB1004" or "HFB1005")
        {
            return; // No JSON, so no schema to ask.
        }

        using var document = JsonDocument.Parse(File.ReadAllBytes(Path.Combine(Examples.Folder, "bad", file)));
        IsValid(document.RootElement).ShouldBe(OnReadingOnly.Contains(expected));
    }

    private static IEnumerable<string> Properties(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => element.EnumerateObject().SelectMany(p =>
            (p.Name == "properties" ? p.Value.EnumerateObject().Select(x => x.Name) : []).Concat(Properties(p.Value))),
        JsonValueKind.Array => element.EnumerateArray().SelectMany(Properties),
        _ => [],
    };

    private static bool IsValid(JsonElement document) => Schema.Value.Evaluate(document, Options).IsValid;

    private static readonly Lazy<JsonSchema> Schema = new(() =>
    {
        using var stream = SessionSchema.Open();
        using var reader = new StreamReader(stream);
        return JsonSchema.FromText(reader.ReadToEnd());
    });
}
