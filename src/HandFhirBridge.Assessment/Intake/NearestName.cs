namespace HandFhirBridge.Assessment.Intake;

/// <summary>Finds the known name somebody probably meant.</summary>
public static class NearestName
{
    /// <summary>The known name with the fewest single-character edits (Levenshtein distance, case ignored) from <paramref name="written"/>, or null if none is within a third of its length.</summary>
    public static string? Of(string written, IEnumerable<string> known) =>
        known.Select(name => (Name: name, Edits: Edits(written, name)))
            .Where(c => c.Edits <= Math.Max(1, c.Name.Length / 3))
            .OrderBy(c => c.Edits).Select(c => c.Name).FirstOrDefault();

    private static int Edits(string a, string b)
    {
        // Longer names cannot be within reach; this also bounds the work for hostile input.
        if (Math.Abs(a.Length - b.Length) > Math.Max(1, b.Length / 3))
        {
            return int.MaxValue;
        }

        var row = Enumerable.Range(0, b.Length + 1).ToArray();
        for (var i = 1; i <= a.Length; i++)
        {
            var diagonal = row[0];
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var substituted = diagonal + (char.ToLowerInvariant(a[i - 1]) == char.ToLowerInvariant(b[j - 1]) ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.Min(substituted, Math.Min(row[j], row[j - 1]) + 1);
            }
        }

        return row[b.Length];
    }
}
