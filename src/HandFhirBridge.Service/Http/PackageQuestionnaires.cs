using HandFhirBridge.Fhir.Profiles;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Service.Http;

/// <summary>The questionnaires of the package, as they were generated.</summary>
internal static class PackageQuestionnaires
{
    private const string Prefix = "Questionnaire-";

    /// <summary>One of them as UTF-8 JSON; null if there is none with the id.</summary>
    public static byte[]? Find(string id) =>
        ProfilePackage.Paths.Contains($"{Prefix}{id}.json", StringComparer.Ordinal) ? ProfilePackage.Read($"{Prefix}{id}.json").ToArray() : null;

    /// <summary>Those with a canonical URL, with version or without; all if none is asked for.</summary>
    /// <param name="url">Canonical URL.</param>
    /// <param name="address">Base under which they are read.</param>
    public static Bundle Search(string? url, string address)
    {
        var found = ProfilePackage.Paths.Where(path => path.StartsWith(Prefix, StringComparison.Ordinal))
            .Select(path => FhirJsonDeserializer.DEFAULT.DeserializeResource(System.Text.Encoding.UTF8.GetString(ProfilePackage.Read(path).Span)))
            .OfType<Questionnaire>().Where(q => url is null || q.Url == url || $"{q.Url}|{q.Version}" == url).ToList();
        return new()
        {
            Type = Bundle.BundleType.Searchset,
            Total = found.Count,
            Entry =
            [
                .. found.Select(questionnaire => new Bundle.EntryComponent
                {
                    FullUrl = $"{address}/Questionnaire/{questionnaire.Id}",
                    Resource = questionnaire,
                    Search = new() { Mode = Bundle.SearchEntryMode.Match },
                }),
            ],
        };
    }
}
