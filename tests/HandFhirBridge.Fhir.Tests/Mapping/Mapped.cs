using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Mapping;

/// <summary>Sessions read, scored and mapped as the product does it.</summary>
internal static class Mapped
{
    public static readonly DateTimeOffset Issued = new(2026, 7, 1, 8, 30, 0, TimeSpan.FromHours(2));

    public static MappingOptions Options { get; } = new() { SoftwareVersion = "0.1.0" };

    public static Session Session(string path) => Read(File.ReadAllBytes(path));

    public static Session Read(byte[] document)
    {
        var read = new SessionReader(InstrumentLibrary.Embedded, TimeProvider.System).Read(document);
        return read.Value ?? throw new InvalidDataException(string.Join(Environment.NewLine, read.Problems));
    }

    /// <summary>The example whose file has this name.</summary>
    public static Session Example(string name) => Session(Repository.ExampleSessions().Single(p => Path.GetFileNameWithoutExtension(p) == name));

    public static ScoredSession Score(Session session, bool demonstration = true) =>
        new Scorer(InstrumentLibrary.Embedded, NormLibrary.Embedded, new ScoringOptions(demonstration)).Score(session);

    public static Bundle Map(ScoredSession scored, MappingOptions? options = null) =>
        new SessionMapper(options ?? Options).Map(scored, SessionWriter.Write(scored.Session), Issued);

    public static Bundle Map(Session session, bool demonstration = true, MappingOptions? options = null) => Map(Score(session, demonstration), options);
}
