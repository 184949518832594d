using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>The report's conclusion: what the performer signed or, where nobody did, what rules draft from the scores.</summary>
internal static class Conclusion
{
    public static string Of(SessionContext context) => string.Join(
        " ",
        [
            .. Warnings(context),
            .. context.Session.Conclusion is { } signed ? Signed(context.Session, signed) : [Draft(context)],
            Wording.Caution,
        ]);

    /// <summary>What rules say of the scores: the part of the conclusion that a therapist may reword.</summary>
    public static string Draft(SessionContext context) => string.Join(" ", Drafted(context));

    // Said whoever words the rest.
    private static IEnumerable<string> Warnings(SessionContext context)
    {
        if (context.Scored.Demonstration)
        {
            yield return Wording.Demonstration;
        }

        if (context.IsCorrection)
        {
            yield return $"Corrected: revision {context.Session.Revision} of this session.";
        }
    }

    private static IEnumerable<string> Signed(Session session, SignedConclusion signed) =>
    [
        PlainWords.Sentence(signed.Text.Trim()),
        $"Signed by {session.Performer.Name}, {PlainWords.Lower(Concepts.Coded(CodeSystems.PerformerRole, session.Performer.Role).Display!)}, {PlainWords.Moment(signed.SignedAt)}.",
    ];

    private static IEnumerable<string> Drafted(SessionContext context)
    {
        yield return $"{context.Instrument.Title} on {PlainWords.Day(context.Session.StartedAt)}; {PlainWords.Handedness(context.Session.Dominance)}, "
            + $"{context.Session.AgeInYears} years old.";
        foreach (var sentence in Enum.GetValues<Hand>().SelectMany(hand => HandSentences.Of(context, hand)))
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
    }
}
