using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Reads session documents (JSON, schema version 1) and reports everything wrong with them at once. Never throws on any bytes; safe to share between threads.</summary>
/// <param name="instruments">Instruments a session may name.</param>
/// <param name="clock">Tells what lies in the future.</param>
public sealed class SessionReader(InstrumentLibrary instruments, TimeProvider clock)
{
    /// <summary>Largest document accepted, in bytes (1 MiB). A session with every note filled in has some ten thousand.</summary>
    public const int MaxDocumentBytes = 1024 * 1024;

    /// <summary>How far a time may lie ahead of this machine's clock before it counts as in the future.</summary>
    public static readonly TimeSpan ClockSkew = TimeSpan.FromMinutes(5);

    /// <summary>Reads one document.</summary>
    /// <param name="utf8Json">The document, UTF-8.</param>
    /// <returns>The session, or null if any problem is an error; and every problem, in the order of the document.</returns>
    public Outcome<Session> Read(ReadOnlyMemory<byte> utf8Json)
    {
        var (document, problem) = DocumentText.Parse(utf8Json);
        if (document is null)
        {
            return new(null, [problem!]);
        }

        using (document)
        {
            var problems = new ProblemList();
            var session = new DocumentReading(problems, instruments, clock.GetUtcNow() + ClockSkew).Read(document.RootElement);
            return new(problems.HasErrors ? null : session, problems.InOrderOf(document.RootElement));
        }
    }
}
