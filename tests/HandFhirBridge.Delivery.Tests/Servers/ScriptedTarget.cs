using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using WireMock;
using WireMock.RequestBuilders;
using WireMock.ResponseBuilders;
using WireMock.Server;
using WireMock.Types;
using WireMock.Util;

namespace HandFhirBridge.Delivery.Tests.Servers;

/// <summary>
/// A FHIR server whose every answer a test may script. Unscripted, it does what R4 says of a transaction
/// (http.html#transaction) and of a search by identifier, and keeps what it was sent.
/// </summary>
public sealed class ScriptedTarget : IDisposable
{
    private readonly WireMockServer server = WireMockServer.Start();
    private readonly Lock gate = new();

    public ScriptedTarget()
    {
        server.Given(Request.Create().WithPath("/fhir/*", "/fhir", "/fhir/")).RespondWith(Response.Create().WithCallback(AnswerAsync));
    }

    public delegate ResponseMessage Script(JsonObject? sent, Func<ResponseMessage> usual);

    public Uri Base => new(server.Url + "/fhir");

    public JsonObject Capabilities { get; set; } = Statement();

    public List<JsonObject> Patients { get; } = [Chart()];

    public FakeRecord Record { get; } = new();

    public Script? OnTransaction { get; set; }

    public Script? OnPatientSearch { get; set; }

    public Script? OnSearch { get; set; }

    public Script? OnMetadata { get; set; }

    /// <summary>Transactions that arrived, stored or not.</summary>
    public List<JsonObject> Transactions { get; } = [];

    public List<string> Requests { get; } = [];

    /// <summary>Value of the header X-Tenant of each request.</summary>
    public List<string?> Tenants { get; } = [];

    public int PatientSearches => Requests.Count(r => r.StartsWith("GET /fhir/Patient?", StringComparison.Ordinal));

    public static JsonObject Chart(Action<JsonObject>? change = null)
    {
        var chart = JsonNode.Parse("""
            {
              "resourceType": "Patient", "id": "chart-1", "meta": { "versionId": "7" }, "active": true,
              "identifier": [ { "system": "https://north-clinic.example/patients", "value": "P-0001" } ],
              "name": [ { "use": "official", "family": "Lindqvist", "given": [ "Ada" ] } ], "birthDate": "1961-04-12"
            }
            """)!.AsObject();
        change?.Invoke(chart);
        return chart;
    }

    public static JsonObject Statement(bool? updateCreate = true, bool? conditionalCreate = true, bool? transaction = true, string version = "4.0.1")
    {
        var types = new[] { "Observation", "DiagnosticReport", "QuestionnaireResponse", "Device", "Provenance" };
        var rest = new JsonObject
        {
            ["mode"] = "server",
            ["resource"] = new JsonArray([.. types.Select(type =>
            {
                var resource = new JsonObject { ["type"] = type };
                if (updateCreate is { } update)
                {
                    resource["updateCreate"] = update;
                }

                if (conditionalCreate is { } create)
                {
                    resource["conditionalCreate"] = create;
                }

                return resource;
            })]),
        };
        if (transaction is { } offered)
        {
            rest["interaction"] = new JsonArray(new JsonObject { ["code"] = offered ? "transaction" : "batch" });
        }

        return new() { ["resourceType"] = "CapabilityStatement", ["fhirVersion"] = version, ["rest"] = new JsonArray(rest) };
    }

    public static ResponseMessage Json(JsonNode body, int status = 200) => Answer(status, body.ToJsonString(), "application/fhir+json");

    public static ResponseMessage Outcome(int status, string code, string text, string? expression = null)
    {
        var issue = new JsonObject { ["severity"] = "error", ["code"] = code, ["details"] = new JsonObject { ["text"] = text } };
        if (expression is not null)
        {
            issue["expression"] = new JsonArray(expression);
        }

        return Json(new JsonObject { ["resourceType"] = "OperationOutcome", ["issue"] = new JsonArray(issue) }, status);
    }

    public static ResponseMessage Answer(int status, string body = "", string type = "text/html", params (string Name, string Value)[] headers) => new()
    {
        StatusCode = status,
        Headers = headers.Append(("Content-Type", type)).ToDictionary(h => h.Item1, h => new WireMockList<string>(h.Item2)),
        BodyData = new BodyData { BodyAsString = body, DetectedBodyType = BodyType.String, Encoding = System.Text.Encoding.UTF8 },
    };

    public static JsonObject SearchSet(IEnumerable<JsonObject> resources, string? next = null)
    {
        var bundle = new JsonObject
        {
            ["resourceType"] = "Bundle",
            ["type"] = "searchset",
            ["entry"] = new JsonArray([.. resources.Select(r => new JsonObject { ["resource"] = r.DeepClone(), ["search"] = new JsonObject { ["mode"] = "match" } })]),
        };
        if (next is not null)
        {
            bundle["link"] = new JsonArray(new JsonObject { ["relation"] = "next", ["url"] = next });
        }

        return bundle;
    }

    public void Dispose()
    {
        server.Stop();
        server.Dispose();
    }

    private Task<IResponseMessage> AnswerAsync(IRequestMessage request)
    {
        var sent = string.IsNullOrEmpty(request.Body) ? null : JsonNode.Parse(request.Body)!.AsObject();
        lock (gate)
        {
            var url = new Uri(request.Url);
            Requests.Add($"{request.Method} {url.PathAndQuery}");
            Tenants.Add(request.Headers?.TryGetValue("X-Tenant", out var tenant) == true ? tenant.ToString() : null);
            return Task.FromResult<IResponseMessage>(Route(request.Method, url, sent));
        }
    }

    private ResponseMessage Route(string method, Uri url, JsonObject? sent)
    {
        var path = url.AbsolutePath["/fhir".Length..].Trim('/');
        if (method == "POST" && path.Length == 0)
        {
            Transactions.Add(sent!);
            return Play(OnTransaction, sent, () => Json(Record.Transact(sent!)));
        }

        return path switch
        {
            "metadata" => Play(OnMetadata, null, () => Json(Capabilities)),
            "Patient" => Play(OnPatientSearch, null, () => Json(SearchSet(Patients.Where(p => FakeRecord.Matches(p, url.Query))))),
            _ when path.StartsWith("Patient/", StringComparison.Ordinal) => Patients.Find(p => path == $"Patient/{(string)p["id"]!}") is { } chart
                ? Json(chart)
                : Outcome(404, "not-found", "No such patient"),
            _ => Play(OnSearch, null, () => Json(SearchSet(Record.Search(path, url.Query)))),
        };
    }

    private static ResponseMessage Play(Script? script, JsonObject? sent, Func<ResponseMessage> usual) => script is null ? usual() : script(sent, usual);
}
