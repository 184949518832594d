using System.Globalization;
using System.Text.RegularExpressions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Text under the rules for ids, names and free text.</summary>
internal static partial class TextReading
{
    /// <summary>An id of ours: it becomes part of URLs and identifiers, hence the narrow alphabet and the letter or digit in front (no <c>..</c>).</summary>
    public static string? Id(this Field field)
    {
        if (field.String() is not { } text)
        {
            return null;
        }

        if (IdForm().IsMatch(text))
        {
            return text;
        }

        field.Problems.Add(IntakeProblems.InvalidId, field.Path,
            $"is \"{ProblemList.Shown(text)}\"; 1 to 64 letters, digits, dots and hyphens are allowed, the first a letter or digit.", text);
        return null;
    }

    /// <summary>One line without white space around it: names and identifier values, which are compared exactly.</summary>
    public static string? Name(this Field field)
    {
        if (field.NotBlank() is not { } text)
        {
            return null;
        }

        // A zero width no-break space is no white space to the framework, yet as invisible as one.
        if (text.Trim().Trim('\uFEFF').Length != text.Length)
        {
            field.Problems.Add(IntakeProblems.SurroundingWhitespace, field.Path, $"is \"{ProblemList.Shown(text)}\", with white space around it.", text);
            return null;
        }

        return field.WithoutControl(text, linesAllowed: false);
    }

    /// <summary>Free text; line breaks and tabs are allowed.</summary>
    public static string? FreeText(this Field field) =>
        field.NotBlank() is { } text ? field.WithoutControl(text, linesAllowed: true) : null;

    private static string? NotBlank(this Field field)
    {
        var text = field.String();
        if (text is null || !string.IsNullOrWhiteSpace(text))
        {
            return text;
        }

        field.Problems.Add(IntakeProblems.BlankText, field.Path, $"is \"{ProblemList.Shown(text)}\", without a visible character.", text);
        return null;
    }

    private static string? WithoutControl(this Field field, string text, bool linesAllowed)
    {
        foreach (var c in text)
        {
            if (char.IsControl(c) && !(linesAllowed && c is ('\t' or '\n' or '\r')))
            {
                field.Problems.Add(IntakeProblems.ControlCharacter, field.Path,
                    string.Create(CultureInfo.InvariantCulture, $"contains the control character U+{(int)c:X4}."), field.Raw);
                return null;
            }
        }

        return text;
    }

    [GeneratedRegex(@"^[A-Za-z0-9][A-Za-z0-9.-]{0,63}\z")]
    private static partial Regex IdForm();
}
