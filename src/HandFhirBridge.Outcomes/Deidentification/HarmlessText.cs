using System.Text.RegularExpressions;

namespace HandFhirBridge.Outcomes.Deidentification;

/// <summary>Text that may leave as it is.</summary>
internal static partial class HarmlessText
{
    /// <summary>True for words of letters with hyphens between, such as <c>stopped-at-cap</c>, and for comparators.</summary>
    public static bool IsWord(string text) => text.Length <= 64 && Word.IsMatch(text);

    /// <summary>True for one short piece of letters, digits and signs, such as a code, a unit of UCUM, a version or a number.</summary>
    public static bool IsCode(string text) => Code.IsMatch(text);

    /// <summary>True for a word of ours without digits but those of a count: a task, a total, a hand, the place of an attempt.</summary>
    public static bool IsPart(string text) => Part.IsMatch(text);

    [GeneratedRegex(@"^(?:[<>]=?|[A-Za-z]+(?:-[a-z]+)*)\z", RegexOptions.CultureInvariant)]
    private static partial Regex Word { get; }

    [GeneratedRegex(@"^(?:[<>]=?|%|\{[a-z]{1,20}\}|\[[a-z_]{1,20}\]|[A-Za-z0-9][A-Za-z0-9._+|-]{0,63})\z", RegexOptions.CultureInvariant)]
    private static partial Regex Code { get; }

    [GeneratedRegex(@"^(?:[a-z]+(?:-[a-z]+)*|[0-9]{1,2})\z", RegexOptions.CultureInvariant)]
    private static partial Regex Part { get; }
}
