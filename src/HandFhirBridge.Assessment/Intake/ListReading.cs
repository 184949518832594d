namespace HandFhirBridge.Assessment.Intake;

/// <summary>Arrays of words in which each may stand once.</summary>
internal static class ListReading
{
    /// <summary>The items that could be read, in order. <paramref name="read"/> gives null after reporting a problem.</summary>
    public static List<string> Distinct(this Field field, Func<Field, string?> read)
    {
        var values = new List<string>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var item in field.Items())
        {
            if (read(item) is not { } value)
            {
                continue;
            }

            if (seen.Add(value))
            {
                values.Add(value);
            }
            else
            {
                item.Problems.Add(IntakeProblems.DuplicateEntry, item.Path, $"is {item.Raw}, which is listed already.", item.Raw);
            }
        }

        return values;
    }
}
