using System.Net;
using System.Text;
using System.Web;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Delivery.Tests.Reading;

/// <summary>A server that answers searches in one of the ways that servers do.</summary>
/// <param name="held">What it holds.</param>
/// <param name="way">How it searches.</param>
internal sealed class OddSearches(IReadOnlyList<Resource> held, SearchWay way) : HttpMessageHandler
{
    private const int Page = 4;

    /// <summary>Requests so far.</summary>
    public List<Uri> Asked { get; } = [];

    protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var address = request.RequestUri!;
        lock (Asked)
        {
            Asked.Add(address);
        }

        var path = address.AbsolutePath["/fhir/".Length..].Split('/');
        return System.Threading.Tasks.Task.FromResult(path is [var type, var id]
            ? held.FirstOrDefault(r => r.TypeName == type && r.Id == id) is { } found ? Answer(HttpStatusCode.OK, found) : Answer(HttpStatusCode.NotFound, new OperationOutcome())
            : Search(path[0], HttpUtility.ParseQueryString(address.Query)));
    }

    private HttpResponseMessage Search(string type, System.Collections.Specialized.NameValueCollection query)
    {
        if ((way == SearchWay.RefusesCategory && query["category"] is not null) || (way == SearchWay.RefusesResponses && type == "QuestionnaireResponse"))
        {
            return Answer(HttpStatusCode.BadRequest, new OperationOutcome());
        }

        var matches = held.Where(r => r.TypeName == type && (way == SearchWay.IgnoresParameters || Matches(r, query))).ToList();
        var from = int.Parse(query["from"] ?? "0", System.Globalization.CultureInfo.InvariantCulture);
        var size = way == SearchWay.Pages ? Page : matches.Count;
        var bundle = new Bundle { Type = Bundle.BundleType.Searchset, Entry = [.. matches.Skip(from).Take(size).Select(r => new Bundle.EntryComponent { Resource = r })] };
        if (from + size < matches.Count)
        {
            query["from"] = $"{from + size}";
            bundle.NextLink = new Uri($"http://odd.example/fhir/{type}?{query}");
        }

        // What a server adds to an answer is not what was asked for.
        bundle.Entry.Add(new() { Resource = new OperationOutcome() });
        return Answer(HttpStatusCode.OK, bundle);
    }

    private bool Matches(Resource resource, System.Collections.Specialized.NameValueCollection query) =>
        (query["patient"] is not { } patient || Subject(resource)?.EndsWith($"Patient/{patient}", StringComparison.Ordinal) == true)
        && (query["derived-from"] is not { } derived || (resource is Observation from && from.DerivedFrom.Any(d => d.Reference!.EndsWith(derived, StringComparison.Ordinal))))
        && (query["category"] is null || way != SearchWay.FindsNoCategory);

    private static string? Subject(Resource resource) => resource switch
    {
        Observation o => o.Subject?.Reference,
        DiagnosticReport r => r.Subject?.Reference,
        QuestionnaireResponse r => r.Subject?.Reference,
        _ => null,
    };

    private static HttpResponseMessage Answer(HttpStatusCode status, Resource resource) =>
        new(status) { Content = new StringContent(FhirJsonSerializer.Default.SerializeToString(resource), Encoding.UTF8, "application/fhir+json") };
}
