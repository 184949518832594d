using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>Set-up and precautions as rows of a table: what, and how it was.</summary>
internal static class SetupRows
{
    public static IEnumerable<string[]> Of(Session session, InstrumentWords words)
    {
        var setup = session.Setup;
        yield return ["Glasses", Lower(CodeSystems.Setup, WireName.Of(setup.Glasses))];
        yield return ["Template board", setup.TemplateBoard ? "on the table" : "none"];
        yield return ["Cap", setup.CapSeconds is { } cap ? PlainWords.Seconds(cap) : "none in force"];
        foreach (var (_, what, length) in Lengths(setup))
        {
            yield return [what, Wording.Length(length)];
        }

        foreach (var replaced in setup.ItemsReplaced)
        {
            yield return ["Item replaced", $"{PlainWords.Lower(words.Material(replaced.Item))} by {replaced.ReplacedBy}"];
        }

        if (setup.Kit is { } kit)
        {
            yield return ["Kit", kit.SerialNumber is { } serial ? $"{kit.Name}, serial number {serial}" : kit.Name];
        }

        foreach (var asked in session.Precautions)
        {
            yield return ["Precaution asked", Precaution(words, asked)];
        }
    }

    /// <summary>A precaution with its answer and what the therapist left out because of it.</summary>
    public static string Precaution(InstrumentWords words, PrecautionAsked asked)
    {
        var hands = asked.Hands.IsEmpty ? "" : $" ({PlainWords.List([.. asked.Hands.Select(hand => WireName.Of(hand) + " hand")])})";
        var ruledOut = asked.RulesOut.IsEmpty ? "" : $"; ruled out: {PlainWords.List([.. asked.RulesOut.Select(task => Wording.Task(words, task))])}";
        var note = asked.Note is { } text ? $"; {text}" : "";
        return $"{Lower(CodeSystems.Precaution, asked.Precaution)}: {Lower(CodeSystems.Setup, WireName.Of(asked.Answer))}{hands}{ruledOut}{note}";
    }

    /// <summary>Lengths that were measured, with the id of the instrument's measure.</summary>
    public static IEnumerable<(string MeasureId, string What, Length Length)> Lengths(Setup setup) => new (string Id, string What, Length? Length)[]
    {
        (SetupLinks.TableHeight, "Table height", setup.TableHeight),
        (SetupLinks.ChairHeight, "Chair height", setup.ChairHeight),
        (SetupLinks.EdgeToItems, "Front edge of the table to the items", setup.EdgeToItems),
        (SetupLinks.BetweenItems, "Between items", setup.BetweenItems),
    }.Where(row => row.Length is not null).Select(row => (row.Id, row.What, row.Length!));

    private static string Lower(string system, string code) => PlainWords.Lower(Displays.Of(system, code) ?? code);
}
