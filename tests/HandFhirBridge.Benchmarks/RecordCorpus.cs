using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Benchmarks;

/// <summary>
/// Trials of many sittings at twelve clinics in five years, as the product maps them, without the narrative. Each names its clinic beside the
/// therapist, as the report of a session does, so that it can be searched for: R4 has no search by the site of an Observation.
/// </summary>
internal sealed class RecordCorpus
{
    internal const string ClinicSystem = "https://clinics.example/id";

    private const int Clinics = 12;
    private const int Days = 5 * 365;
    private const int SittingsABundle = 20;

    private static readonly DateTimeOffset First = new(2021, 1, 1, 9, 0, 0, TimeSpan.Zero);
    private readonly string[] trials;
    private int given;

    internal RecordCorpus()
    {
        trials = [.. Corpus.Bundle(Corpus.Paths[0]).Entry.Select(e => e.Resource).OfType<Observation>()
            .Where(o => o.Identifier.Exists(i => i.System!.EndsWith("/trial", StringComparison.Ordinal)) && o.Value is Quantity).Select(Template)];
        Codes = [.. trials.Select(t => (string)JsonNode.Parse(t)!["code"]!["coding"]![0]!["code"]!)];
    }

    /// <summary>Codes of the trials, one a task and hand.</summary>
    internal IReadOnlyList<string> Codes { get; }

    internal string CodeSystem { get; private set; } = "";

    /// <summary>Bundles with so many trials.</summary>
    /// <param name="count">Trials in all.</param>
    internal IEnumerable<byte[]> Bundles(int count) =>
        Enumerable.Range(0, (count + trials.Length - 1) / trials.Length).Chunk(SittingsABundle).Select(Bundle);

    /// <summary>So many bundles with the trials of one sitting each, that no earlier call gave.</summary>
    internal byte[][] Sittings(int count)
    {
        given += count;
        return [.. Enumerable.Range(given - count, count).Select(sitting => Bundle([sitting]))];
    }

    private byte[] Bundle(int[] sittings) =>
        Encoding.UTF8.GetBytes($$"""{"resourceType":"Bundle","type":"transaction","entry":[{{string.Join(',', sittings.SelectMany(One))}}]}""");

    /// <summary>A question about one code, at one clinic, in one month.</summary>
    internal (string Code, string Clinic, DateOnly From, DateOnly To) Question(Random random)
    {
        var from = DateOnly.FromDateTime(First.Date).AddMonths(random.Next(60));
        return (Codes[random.Next(Codes.Count)], Clinic(random.Next(Clinics)), from, from.AddMonths(1).AddDays(-1));
    }

    private static string Clinic(int number) => string.Create(CultureInfo.InvariantCulture, $"clinic-{number}");

    private string Template(Observation trial)
    {
        (trial.Text, trial.DerivedFrom, trial.Device) = (null, [], null);
        trial.Id = "@id";
        trial.Identifier[0].Value = "@session/" + trial.Code.Coding[0].Code;
        trial.Subject = new("Patient/@person");
        trial.Performer.Add(new() { Type = "Organization", Identifier = new(ClinicSystem, "@clinic") });
        trial.Effective = new FhirDateTime("@time");
        CodeSystem = trial.Code.Coding[0].System!;
        return new FhirJsonSerializer().SerializeToString(trial);
    }

    private IEnumerable<string> One(int sitting)
    {
        // Steps that share no factor with the numbers they are taken over: clinic and day go through all pairs.
        var clinic = Clinic(sitting % Clinics);
        var time = First.AddDays(sitting * 7919 % Days).ToString("yyyy-MM-ddTHH:mm:sszzz", CultureInfo.InvariantCulture);
        return trials.Select((trial, i) =>
        {
            var id = string.Create(CultureInfo.InvariantCulture, $"trial-{sitting}-{i}");
            var resource = trial.Replace("@id", id, StringComparison.Ordinal).Replace("@session", $"{clinic}/{sitting}", StringComparison.Ordinal)
                .Replace("@person", string.Create(CultureInfo.InvariantCulture, $"person-{sitting / 3}"), StringComparison.Ordinal)
                .Replace("@clinic", clinic, StringComparison.Ordinal).Replace("@time", time, StringComparison.Ordinal);
            return $$$"""{"resource":{{{resource}}},"request":{"method":"PUT","url":"Observation/{{{id}}}"}}""";
        });
    }
}
