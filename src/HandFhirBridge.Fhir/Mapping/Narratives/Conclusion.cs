namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>The conclusion, drafted by rules from what was scored; a person may reword it in the record.</summary>
internal static class Conclusion
{
    public static string Of(SessionContext context) => string.Join(" ", Sentences(context));

    private static IEnumerable<string> Sentences(SessionContext context)
    {
        if (context.Scored.Demonstration)
        {
            yield return Wording.Demonstration;
        }

        if (context.IsCorrection)
        {
            yield return $"Corrected: revision {context.Session.Revision} of this session.";
        }

        yield return $"{context.Instrument.Title} on {Wording.Day(context.Session.StartedAt)}; {Wording.Handedness(context.Session.Dominance)}, "
            + $"{context.Session.AgeInYears} years old.";
        foreach (var sentence in Enum.GetValues<Assessment.Sessions.Hand>().SelectMany(hand => HandSentences.Of(context, hand)))
        {
            yield return sentence;
        }

        var norms = context.Scored.Trials.SelectMany(t => t.Norms).Select(NormWording.Origin).Distinct().ToList();
        if (norms.Count > 0)
        {
            yield return $"Norms: {string.Join("; ", norms)}.";
        }

        foreach (var sentence in ConditionSentences.Of(context))
        {
            yield return sentence;
        }

        yield return Wording.Caution;
    }
}
