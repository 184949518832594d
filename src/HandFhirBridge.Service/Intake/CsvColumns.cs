using System.Collections.Frozen;

namespace HandFhirBridge.Service.Intake;

/// <summary>The columns a table may have. A name is the place of the value in the session document; those of a trial begin with <c>trial.</c>.</summary>
internal static class CsvColumns
{
    public const string Site = "site";
    public const string SessionId = "sessionId";

    /// <summary>Written by us beside refused rows, ignored when the table is handed in again.</summary>
    public const string Problem = "problem";

    public const string TrialPrefix = "trial.";
    public const string PrecautionPrefix = "precautions.";
    public const string ReplacedPrefix = "setup.itemsReplaced.";
    private static readonly string[] Lengths = ["tableHeight", "chairHeight", "edgeToItems", "betweenItems"];

    /// <summary>Columns with a fixed name, and what they hold.</summary>
    public static FrozenDictionary<string, CsvCell> Fixed { get; } = Text(
            Site, SessionId, "instrument.id", "instrument.version", "patient.identifier.system", "patient.identifier.value", "patient.familyName",
            "patient.birthDate", "performer.identifier.system", "performer.identifier.value", "performer.name", "performer.role",
            "encounter.system", "encounter.value", "order.system", "order.value", "startedAt", "endedAt",
            "dominance.handedness", "dominance.howKnown", "dominance.testedAsDominant", "sexForNorm", "setup.glasses",
            "setup.kit.name", "setup.kit.serialNumber", "comment", "conclusion.text", "conclusion.signedAt",
            "trial.task", "trial.hand", "trial.outcome", "trial.startedAt", "trial.source", "trial.reason", "trial.note")
        .Concat(Lengths.Select(l => KeyValuePair.Create($"setup.{l}.unit", CsvCell.Text)))
        .Concat(Lengths.Select(l => KeyValuePair.Create($"setup.{l}.value", CsvCell.Number)))
        .Concat([new("revision", CsvCell.Number), new("dominance.lateralityQuotient", CsvCell.Number), new("setup.capSeconds", CsvCell.Number), new("trial.seconds", CsvCell.Number)])
        .Concat([new("setup.templateBoard", CsvCell.Flag), new("trial.counted", CsvCell.Flag), new("trial.departures", CsvCell.Words)])
        .ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Columns no session can do without.</summary>
    public static IReadOnlyList<string> Required { get; } =
    [
        Site, SessionId, "instrument.id", "instrument.version", "patient.identifier.system", "patient.identifier.value", "patient.familyName",
        "patient.birthDate", "performer.identifier.system", "performer.identifier.value", "performer.name", "performer.role",
        "startedAt", "endedAt", "dominance.handedness", "dominance.howKnown", "sexForNorm", "setup.glasses", "setup.templateBoard",
        "trial.task", "trial.hand", "trial.outcome", "trial.seconds",
    ];

    /// <summary>True for a fixed column, or one of a precaution or a replaced item.</summary>
    public static bool IsKnown(string name) =>
        name == Problem || Fixed.ContainsKey(name) || IsOpen(name, PrecautionPrefix) || IsOpen(name, ReplacedPrefix);

    /// <summary>What the cells of a precaution's column hold: <c>precautions.open-wound</c> the answer, with <c>.rulesOut</c>, <c>.hands</c>, <c>.note</c> the rest; null for any other ending.</summary>
    public static (string Precaution, string Property)? PrecautionPart(string name)
    {
        if (!IsOpen(name, PrecautionPrefix))
        {
            return null;
        }

        var rest = name[PrecautionPrefix.Length..].Split('.', 2);
        return (rest[0], rest.Length == 1 ? "answer" : rest[1]);
    }

    private static bool IsOpen(string name, string prefix) =>
        name.Length > prefix.Length && name.StartsWith(prefix, StringComparison.Ordinal)
        && (prefix == ReplacedPrefix || name[prefix.Length..].Split('.') is [_] or [_, "rulesOut" or "hands" or "note"]);

    private static IEnumerable<KeyValuePair<string, CsvCell>> Text(params string[] names) => names.Select(n => KeyValuePair.Create(n, CsvCell.Text));
}
