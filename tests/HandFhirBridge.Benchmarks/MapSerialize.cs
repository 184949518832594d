using System.Diagnostics;
using HandFhirBridge.Assessment.Scoring;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Benchmarks;

/// <summary>Mapping and serializing a scored session, against the SDK's serialization of the ready bundle alone.</summary>
internal static class MapSerialize
{
    private const int Rounds = 4;

    internal static Ratio Measure(int runs)
    {
        (ScoredSession Scored, byte[] Document)[] sessions = [.. Corpus.Paths.Select(File.ReadAllBytes).Select(document => (Corpus.Score(document), document))];
        Bundle[] bundles = [.. sessions.Select(session => Corpus.Map(session.Scored, session.Document))];
        var serializer = new FhirJsonSerializer();
        double Ours() => PerItem(sessions, session => serializer.SerializeToBytes(Corpus.Map(session.Scored, session.Document)).Length);
        double Other() => PerItem(bundles, bundle => serializer.SerializeToBytes(bundle).Length);
        for (var warming = 0; warming < Rounds; warming++)
        {
            Ours();
            Other();
        }

        var (mine, theirs) = Alternating.Measure(runs, Ours, Other);
        return new("mapSerialize", mine, theirs, "ms a bundle", "the SDK's serialization of the same bundle, without mapping");
    }

    private static double PerItem<T>(T[] items, Func<T, int> work)
    {
        var start = Stopwatch.GetTimestamp();
        for (var round = 0; round < Rounds; round++)
        {
            foreach (var item in items)
            {
                work(item);
            }
        }

        return Stopwatch.GetElapsedTime(start).TotalMilliseconds / (Rounds * items.Length);
    }
}
