using System.Globalization;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>Figures, dates and sentences as every text of a session writes them: narrative, page and print alike.</summary>
public static class PlainWords
{
    /// <summary>A time with its unit and the digits it was entered with.</summary>
    public static string Seconds(decimal seconds) => string.Create(CultureInfo.InvariantCulture, $"{seconds} s");

    /// <summary>A percentage with one decimal.</summary>
    public static string Percent(decimal percent) => percent.ToString("0.0", CultureInfo.InvariantCulture) + " %";

    /// <summary>A day, as ISO 8601 writes it.</summary>
    public static string Day(DateTimeOffset moment) => moment.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>A minute of a day with its offset.</summary>
    public static string Moment(DateTimeOffset moment) => moment.ToString("yyyy-MM-dd HH:mm zzz", CultureInfo.InvariantCulture);

    /// <summary>Handedness, and for the ambidextrous the hand that was tested as dominant.</summary>
    public static string Handedness(Dominance dominance)
    {
        ArgumentNullException.ThrowIfNull(dominance);
        return dominance.Handedness == Assessment.Sessions.Handedness.Ambidextrous
            ? $"ambidextrous, tested with the {WireName.Of(dominance.TestedAsDominant)} hand as dominant"
            : $"{WireName.Of(dominance.Handedness)}-handed";
    }

    /// <summary><c>a, b and c</c>.</summary>
    public static string List(IReadOnlyList<string> parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        return parts.Count <= 1 ? string.Concat(parts) : $"{string.Join(", ", parts.Take(parts.Count - 1))} and {parts[^1]}";
    }

    /// <summary>With a full stop; what a person wrote may already end with one.</summary>
    public static string Sentence(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.TrimEnd() is [.., '.' or '!' or '?'] ended ? ended : text.TrimEnd() + ".";
    }

    /// <summary>As a sentence begins.</summary>
    public static string Upper(string text)
    {
        ArgumentException.ThrowIfNullOrEmpty(text);
        return char.ToUpperInvariant(text[0]) + text[1..];
    }

    /// <summary>As it stands within a sentence.</summary>
    public static string Lower(string text)
    {
        ArgumentException.ThrowIfNullOrEmpty(text);
        return char.ToLowerInvariant(text[0]) + text[1..];
    }
}
