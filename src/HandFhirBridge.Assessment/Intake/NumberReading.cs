using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Numbers, kept digit for digit: 12.40 stays 12.40.</summary>
internal static partial class NumberReading
{
    public static decimal? Number(this Field field)
    {
        if (field.Element is not { } element)
        {
            return null;
        }

        if (element.ValueKind != JsonValueKind.Number)
        {
            NotANumber(field, element);
            return null;
        }

        var raw = element.GetRawText();
        if (raw.AsSpan().ContainsAny('e', 'E'))
        {
            field.Problems.Add(IntakeProblems.ExponentNotation, field.Path, $"is {ProblemList.Shown(raw)}, in exponent notation.", raw);
            return null;
        }

        // decimal.TryParse rounds what it cannot hold and drops the sign of zero; only what prints as it was written has been kept.
        if (decimal.TryParse(raw, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
            && number.ToString(CultureInfo.InvariantCulture) == raw)
        {
            return number;
        }

        field.Problems.Add(IntakeProblems.NumberNotExact, field.Path, $"is {ProblemList.Shown(raw)}, which cannot be kept digit for digit.", raw);
        return null;
    }

    public static int? WholeNumber(this Field field)
    {
        if (field.Number() is not { } number)
        {
            return null;
        }

        if (number.Scale == 0 && number is >= int.MinValue and <= int.MaxValue)
        {
            return (int)number;
        }

        field.Problems.Add(IntakeProblems.NotWholeNumber, field.Path, $"is {field.Raw}; a whole number of at most 2147483647 is required.", field.Raw);
        return null;
    }

    private static void NotANumber(Field field, JsonElement element)
    {
        var text = element.ValueKind == JsonValueKind.String ? element.GetString()! : "";
        if (CommaNumber().IsMatch(text))
        {
            field.Problems.Add(IntakeProblems.DecimalComma, field.Path, $"is \"{text}\", with a decimal comma.", text,
                $"Write {text.Replace(',', '.')} with a decimal point and without quotation marks.");
        }
        else
        {
            field.Problems.WrongType(field.Path, element, PlainNumber().IsMatch(text) ? $"a number ({text} without quotation marks)" : "a number such as 12.40");
        }
    }

    [GeneratedRegex(@"^-?[0-9]{1,9},[0-9]{1,9}\z")]
    private static partial Regex CommaNumber();

    [GeneratedRegex(@"^-?(0|[1-9][0-9]{0,9})(\.[0-9]{1,9})?\z")]
    private static partial Regex PlainNumber();
}
