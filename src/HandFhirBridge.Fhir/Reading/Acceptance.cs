using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Lets a session pass that came out of a record only if it would be accepted at the door: one set of rules for both ways in.</summary>
internal static class Acceptance
{
    /// <summary>The session as the door would give it, or null if it would be refused; that was noted.</summary>
    public static Session? Check(Session session, InstrumentLibrary instruments, TimeProvider clock, Place place)
    {
        var read = new SessionReader(instruments, clock).Read(SessionWriter.Write(session));
        foreach (var problem in read.Problems.Where(p => p.Severity == Severity.Error))
        {
            place.Add(ReadingProblems.NotAcceptable, $"holds a session that would be refused: {problem.Code} {problem.Message}", problem.Found);
        }

        return read.Value;
    }
}
