using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;

namespace HandFhirBridge.Faults.Tests.Fuzzing;

/// <summary>Makes requests that are wrong in method, address, headers or body, and right ones between them.</summary>
/// <param name="random">Chooses.</param>
internal sealed class FuzzedRequest(Random random)
{
    private static readonly string[] Methods = ["GET", "POST", "PUT", "DELETE", "PATCH", "HEAD", "OPTIONS", "TRACE", "BREW"];

    private static readonly string[] Paths =
    [
        "sessions", "sessions/", "sessions/preview", "sessions/{}/{}", "sessions/{}/{}/bundle", "sessions/{}/{}/report", "sessions/{}/{}/withdrawal", "patients",
        "patients?system={}&value={}", "patients?system={}&system={}&value={}", "instruments/{}", "sites", "about", "schemas/session-1.json", "health/live",
        "fhir/metadata", "fhir/Questionnaire/{}", "fhir/Questionnaire?url={}", "fhir/QuestionnaireResponse/$extract", "fhir/QuestionnaireResponse/$extract?deliver={}",
        ".well-known/jwks.json", "openapi/v1.json", "table/{}", "table/../{}", "{}", "{}/{}/{}", "ledger", "report/{}",
    ];

    private static readonly string[] Segments =
    [
        "hillhaven-clinic", "seven-task", "hfb-setup", "x", "0", "-1", "true", "..", ".", "%2e%2e%2f", "%00", "%ff", "%c0%af", "a%2fb", "a%5cb", "%F0%9F%98%80", "'%20OR%201=1", "%0d%0aX-A:%20b",
        "*", "%3Cscript%3E", "CON", "~", "|", "a|b", "%7C", "{0}", new('a', 3_000),
    ];

    private static readonly string[] Types =
        ["application/json", "application/fhir+json", "application/json; charset=utf-16", "text/plain", "text/csv", "application/xml", "multipart/form-data", "x", "application/json;;;", ""];

    private static readonly (string Name, string[] Values)[] Headers =
    [
        ("Accept", ["*/*", "application/xml", "text/html;q=0.9", "", "\u007f", "application/fhir+json; fhirVersion=9.9"]),
        ("Authorization", ["Bearer", "Bearer x.y.z", "Bearer eyJhbGciOiJub25lIn0.e30.", "Basic AAAA", "Negotiate ==", "X"]),
        ("X-Api-Key", ["", "x", new('k', 5_000)]),
        ("Content-Encoding", ["gzip", "br", "identity", "x"]),
        ("Accept-Language", ["*", "xx-YY", "de;q=9"]),
        ("If-Match", ["*", "W/\"1\"", "x"]),
        ("If-None-Match", ["*", "\"x\""]),
        ("Range", ["bytes=0-", "bytes=-1-5"]),
        ("Cookie", ["a=b; c", "=;=;"]),
        ("Forwarded", ["for=10.0.0.1;host=evil.example"]),
        ("X-Forwarded-Host", ["evil.example"]),
        ("X-HTTP-Method-Override", ["DELETE"]),
        ("Prefer", ["handling=strict", "respond-async", "return=x"]),
    ];

    private readonly Mutation mutation = new(random);
    private int number;

    public HttpRequestMessage Next()
    {
        // A third goes where documents go, as they go there.
        var document = random.Next(3) == 0;
        var request = new HttpRequestMessage(
            document ? HttpMethod.Post : new(Pick(Methods)),
            new Uri(document ? "sessions" : Address(), UriKind.Relative));
        if (document || (random.Next(2) == 0 && request.Method != HttpMethod.Trace))
        {
            request.Content = new ByteArrayContent(Body());
            var type = document && random.Next(8) > 0 ? "application/json" : Pick(Types);
            request.Content.Headers.TryAddWithoutValidation("Content-Type", type);
        }

        for (var more = random.Next(4); more > 0; more--)
        {
            var (name, values) = Headers[random.Next(Headers.Length)];
            if (!document || name != "Content-Encoding")
            {
                request.Headers.TryAddWithoutValidation(name, Pick(values));
            }
        }

        return request;
    }

    private string Address()
    {
        var address = new StringBuilder();
        foreach (var part in Pick(Paths).Split("{}"))
        {
            address.Append(address.Length > 0 ? Pick(Segments) : "").Append(part);
        }

        return address.Append(random.Next(10) == 0 ? "?a=%ff&deliver=maybe&" + Pick(Segments) : "").ToString();
    }

    private byte[] Body() => random.Next(12) switch
    {
        0 => [],
        1 => Random(random.Next(2_000)),
        2 => new byte[1_200_000],
        3 or 4 => Fresh(),
        5 => """{"reason":"Wrong patient.","by":"R. Okafor"}"""u8.ToArray(),
        6 => """{"resourceType":"QuestionnaireResponse","status":"completed","item":[{"linkId":"x","answer":[{"valueDecimal":1e999}]}]}"""u8.ToArray(),
        _ => mutation.Apply(Examples.Good[random.Next(Examples.Good.Count)]),
    };

    /// <summary>A document that is fine, under an id of its own.</summary>
    private byte[] Fresh()
    {
        var document = JsonNode.Parse(Examples.Good[random.Next(Examples.Good.Count)])!;
        document["sessionId"] = string.Create(CultureInfo.InvariantCulture, $"fuzz-{++number}");
        return Encoding.UTF8.GetBytes(document.ToJsonString());
    }

    private byte[] Random(int length)
    {
        var bytes = new byte[length];
        random.NextBytes(bytes);
        return bytes;
    }

    private T Pick<T>(T[] from) => from[random.Next(from.Length)];
}
