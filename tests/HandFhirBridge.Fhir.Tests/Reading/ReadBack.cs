using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Fhir.Reading;
using HandFhirBridge.Fhir.Tests.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Reading;

/// <summary>Reads resources back and compares what comes out.</summary>
internal static class ReadBack
{
    private static readonly JsonSerializerOptions Json = new() { WriteIndented = true, Converters = { new JsonStringEnumConverter() } };

    public static SessionResources Reader { get; } = new(InstrumentLibrary.Embedded, TimeProvider.System);

    public static Outcome<ScoredSession> Read(Bundle bundle) => Reader.Read(Resources(bundle));

    public static IEnumerable<Resource> Resources(Bundle bundle) => bundle.Entry.Select(e => e.Resource!);

    /// <summary>The scored session that must come out, after a way through text.</summary>
    public static ScoredSession ReadWhole(Bundle bundle)
    {
        var read = Read(FhirText.ThroughText(bundle));
        read.Problems.ShouldBeEmpty();
        return read.Value.ShouldNotBeNull();
    }

    /// <summary>Equal session bytes and equal scores, each decimal with its digits.</summary>
    public static void ShouldBeTheSame(ScoredSession read, ScoredSession original)
    {
        Encoding.UTF8.GetString(SessionWriter.Write(read.Session)).ShouldBe(Encoding.UTF8.GetString(SessionWriter.Write(original.Session)));
        JsonSerializer.Serialize(read, Json).ShouldBe(JsonSerializer.Serialize(original, Json));
    }
}
