using System.Globalization;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Begin and end of the session. Null if absent, unreadable or contradicting each other.</summary>
internal readonly record struct SessionTimes(DateTimeOffset? StartedAt, DateTimeOffset? EndedAt)
{
    // Nobody sits through the test for longer; a longer session is a mistyped date.
    private static readonly TimeSpan Longest = TimeSpan.FromHours(8);
    private const int OldestAge = 120;

    public static SessionTimes Read(ObjectFields fields, DateOnly? birthDate, DateTimeOffset latest)
    {
        var (startField, endField) = (fields.Required("startedAt"), fields.Required("endedAt"));
        var (start, end) = (startField.Instant(), endField.Instant());
        NotInFuture(startField, start, latest);
        var readable = start is not null && end is not null;
        if (readable && end < start)
        {
            fields.Problems.Add(IntakeProblems.EndBeforeStart, endField.Path,
                $"is {endField.Raw}, before startedAt {startField.Raw}.", endField.String());
            (readable, end) = (false, null);
        }

        NotInFuture(endField, start <= latest ? end : null, latest);
        if (readable && end - start > Longest)
        {
            fields.Problems.Add(IntakeProblems.LongSession, endField.Path,
                $"is {endField.Raw}, more than 8 hours after startedAt {startField.Raw}.", endField.String());
        }

        CheckAge(birthDate, start, fields.Problems);
        return readable ? new(start, end) : default;
    }

    private static void NotInFuture(Field field, DateTimeOffset? instant, DateTimeOffset latest)
    {
        if (instant > latest)
        {
            field.Problems.Add(IntakeProblems.InFuture, field.Path, $"is {field.Raw}, in the future.", field.String());
        }
    }

    private static void CheckAge(DateOnly? birthDate, DateTimeOffset? start, ProblemList problems)
    {
        if (birthDate is not { } birth || start is not { } began)
        {
            return;
        }

        var day = DateOnly.FromDateTime(began.DateTime);
        var (born, held) = (Written(birth), Written(day));
        if (birth > day)
        {
            problems.Add(IntakeProblems.BornAfterSession, "$.patient.birthDate", $"is {born}, after the session on {held}.", born);
        }
        else if (Session.AgeOn(birth, day) > OldestAge)
        {
            problems.Add(IntakeProblems.AgeAbsurd, "$.patient.birthDate", $"is {born}, more than {OldestAge} years before the session on {held}.", born);
        }
    }

    private static string Written(DateOnly date) => date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
