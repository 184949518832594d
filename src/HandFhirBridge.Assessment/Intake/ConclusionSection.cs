using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>The conclusion signed by the performer, where there is one.</summary>
internal static class ConclusionSection
{
    public static SignedConclusion? Read(Field field, SessionTimes times, DateTimeOffset latest, Performer? performer)
    {
        if (field.Object("text", "signedAt") is not { } fields)
        {
            return null;
        }

        var text = fields.Required("text").FreeText();
        var signedField = fields.Required("signedAt");
        var signed = signedField.Instant();
        if (signed > latest)
        {
            field.Problems.Add(IntakeProblems.InFuture, signedField.Path, $"is {signedField.Raw}, in the future.", signedField.String());
        }
        else if (signed < times.EndedAt)
        {
            field.Problems.Add(IntakeProblems.SignedBeforeEnd, signedField.Path, $"is {signedField.Raw}, before the session ended.", signedField.String());
        }

        // Who may conclude is for the law of the place and the clinic; common practice, no source: neither assistants nor students alone.
        if (performer is { Role: PerformerRole.OccupationalTherapyAssistant or PerformerRole.StudentUnderSupervision })
        {
            field.Problems.Add(IntakeProblems.SignedByAssistant, field.Path, $"is signed by the performer, whose role is {WireName.Of(performer.Role)}.");
        }

        return text is null || signed is null ? null : new(text, signed.Value);
    }
}
