using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>The instrument named, and its definition if this installation has it.</summary>
internal static class InstrumentSection
{
    public static (InstrumentReference? Reference, Instrument? Definition) Read(Field field, InstrumentLibrary instruments)
    {
        if (field.Object("id", "version") is not { } fields)
        {
            return (null, null);
        }

        var id = fields.Required("id").String();
        var version = fields.Required("version").String();
        if (id is null || version is null)
        {
            return (null, null);
        }

        var definition = instruments.Find(id, version);
        if (definition is null)
        {
            var known = string.Join(", ", instruments.All.Select(i => $"{i.Id} version {i.Version}"));
            field.Problems.Add(IntakeProblems.UnknownInstrument, field.Path,
                $"is {ProblemList.Shown(id)} version {ProblemList.Shown(version)}; known here: {known}.", field.Raw);
        }

        return (new InstrumentReference(id, version), definition);
    }
}
