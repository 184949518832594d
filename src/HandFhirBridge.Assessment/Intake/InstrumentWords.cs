using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Words whose list is the instrument's. Where the instrument itself is not known, any word passes: that fault is reported already.</summary>
internal static class InstrumentWords
{
    public static string? Task(this Field field, Instrument? instrument) =>
        field.Word(IntakeProblems.UnknownTask, instrument?.Tasks.Select(t => t.Id));

    public static string? Departure(this Field field, Instrument? instrument) =>
        field.Word(IntakeProblems.UnknownDeparture, instrument?.Departures.Select(d => d.Id));

    public static string? Precaution(this Field field, Instrument? instrument) =>
        field.Word(IntakeProblems.UnknownPrecaution, instrument?.Precautions.Select(p => p.Id));

    public static string? Material(this Field field, Instrument? instrument) =>
        field.Word(IntakeProblems.UnknownItem, instrument?.Tasks.SelectMany(t => t.Materials).Select(m => m.Id).Distinct());

    private static string? Word(this Field field, ProblemKind kind, IEnumerable<string>? known)
    {
        if (field.String() is not { } written || known is null)
        {
            return null;
        }

        var words = known.ToArray();
        if (words.Contains(written))
        {
            return written;
        }

        field.Problems.NotAmong(kind, field.Path, written, words);
        return null;
    }
}
