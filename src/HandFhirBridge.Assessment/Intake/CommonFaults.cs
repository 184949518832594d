using System.Text.Json;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Sentences for faults that any field can have.</summary>
internal static class CommonFaults
{
    public static void WrongType(this ProblemList problems, string path, JsonElement element, string expected) =>
        problems.Add(IntakeProblems.WrongType, path, $"is {Described(element)}; {expected} is required.", element.GetRawText(), $"Write {expected}.");

    /// <summary>A word outside a closed list.</summary>
    public static void NotAmong(this ProblemList problems, ProblemKind kind, string path, string written, IReadOnlyCollection<string> allowed)
    {
        var meant = NearestName.Of(written, allowed);
        problems.Add(kind, path, $"is \"{ProblemList.Shown(written)}\"; allowed are {string.Join(", ", allowed)}.", written,
            meant is null ? "Use one of the values allowed; upper and lower case count." : $"Did you mean \"{meant}\"?");
    }

    private static string Described(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => "an object",
        JsonValueKind.Array => "an array",
        JsonValueKind.String => $"the text {ProblemList.Shown(element.GetRawText())}",
        JsonValueKind.Number => $"the number {ProblemList.Shown(element.GetRawText())}",
        _ => element.GetRawText(),
    };
}
