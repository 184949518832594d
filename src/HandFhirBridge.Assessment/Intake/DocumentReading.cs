using System.Text.Json;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>One pass over one document: sections first, then the rules that look at several of them.</summary>
internal sealed class DocumentReading(ProblemList problems, InstrumentLibrary instruments, DateTimeOffset latest)
{
    /// <summary>The session, complete exactly if no error was noted.</summary>
    public Session? Read(JsonElement root)
    {
        var fields = ObjectFields.Open(root, JsonPath.Root, problems,
            "$schema", "schemaVersion", "sessionId", "revision", "site", "instrument", "patient", "performer", "encounter", "order",
            "startedAt", "endedAt", "dominance", "sexForNorm", "setup", "precautions", "trials", "comment", "conclusion");
        if (fields is null)
        {
            return null;
        }

        SchemaSection.Check(fields);
        var sessionId = fields.Required("sessionId").Id();
        var revision = Revision(fields.Optional("revision"));
        var site = fields.Required("site").Id();
        var (reference, instrument) = InstrumentSection.Read(fields.Required("instrument"), instruments);
        var patient = PatientSection.Read(fields.Required("patient"));
        var performer = PerformerSection.Read(fields.Required("performer"));
        var encounter = IdentifierSection.Read(fields.Optional("encounter"));
        var order = IdentifierSection.Read(fields.Optional("order"));
        var times = SessionTimes.Read(fields, patient.BirthDate, latest);
        var dominance = DominanceSection.Read(fields.Required("dominance"));
        var sex = fields.Required("sexForNorm").Choice<SexForNorm>();
        var setup = SetupSection.Read(fields.Required("setup"), instrument);
        var precautions = PrecautionSection.Read(fields.Optional("precautions"), instrument);
        var trials = TrialSection.Read(fields.Required("trials"), instrument);
        var comment = fields.Optional("comment").FreeText();
        var conclusion = ConclusionSection.Read(fields.Optional("conclusion"), times, latest, performer);

        TrialTimeRules.Check(trials, times, problems);
        TrialSecondsRules.Check(trials, setup, instrument, problems);
        AttemptRules.Check(trials, problems);
        CompletenessRules.Check(trials, fields.Optional("trials"), instrument);
        OrderRules.Check(trials, dominance, instrument, problems);
        PrecautionRules.Check(precautions, trials, fields.Optional("precautions"), instrument);

        // From here on every required part is there: an absent or unreadable one has been noted as an error.
        return problems.HasErrors ? null : new Session(
            sessionId!, revision, site!, reference!,
            new PatientIdentity(patient.Identifier!, patient.FamilyName!, patient.BirthDate!.Value), performer!, encounter, order,
            times.StartedAt!.Value, times.EndedAt!.Value, dominance!, sex!.Value, setup.Setup!,
            [.. precautions.Select(p => p.Complete())], [.. trials.Select(t => t.Complete(times.StartedAt.Value))], comment, conclusion);
    }

    private int Revision(Field field)
    {
        if (field.WholeNumber() is not { } revision)
        {
            return 1;
        }

        if (revision < 1)
        {
            problems.Add(IntakeProblems.RevisionBelowOne, field.Path, $"is {field.Raw}; revisions count from 1.", field.Raw);
        }

        return revision;
    }
}
