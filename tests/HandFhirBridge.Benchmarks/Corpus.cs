using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Benchmarks;

/// <summary>The example sessions, as the product reads, scores and maps them.</summary>
internal static class Corpus
{
    private static readonly DateTimeOffset Issued = new(2026, 7, 1, 8, 30, 0, TimeSpan.FromHours(2));
    private static readonly SessionMapper Mapper = new(new MappingOptions { SoftwareVersion = "0.1.0" });

    internal static string[] Paths { get; } =
        [.. Directory.EnumerateFiles(Path.Combine(AppContext.BaseDirectory, "sessions"), "*.json", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];

    internal static Bundle Bundle(string path)
    {
        var document = File.ReadAllBytes(path);
        return Map(Score(document), document);
    }

    internal static ScoredSession Score(byte[] document)
    {
        var read = new SessionReader(InstrumentLibrary.Embedded, TimeProvider.System).Read(document);
        var session = read.Value ?? throw new InvalidDataException(string.Join(Environment.NewLine, read.Problems));
        return new Scorer(InstrumentLibrary.Embedded, NormLibrary.Embedded, new ScoringOptions(Demonstration: true)).Score(session);
    }

    internal static Bundle Map(ScoredSession scored, byte[] document) => Mapper.Map(scored, document, Issued);
}
