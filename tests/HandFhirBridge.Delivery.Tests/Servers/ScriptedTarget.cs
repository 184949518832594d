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

    public delegate ResponseMessage ResourceScript(SentRequest sent, Func<ResponseMessage> usual);

    public Uri Base => new(server.Url + "/fhir");

    public JsonObject Capabilities { get; set; } = Statement();

    public List<JsonObject> Patients { get; } = [Chart()];

    public FakeRecord Record { get; } = new();

    public Script? OnTransaction { get; set; }

    /// <summary>Plays for batches.</summary>
    public Script? OnBatch { get; set; }

    public Script? OnPatientSearch { get; set; }

    public Script? OnSearch { get; set; }

    public Script? OnMetadata { get; set; }

    /// <summary>Plays for creates and updates of one resource.</summary>
    public ResourceScript? OnWrite { get; set; }

    /// <summary>Plays for reads by id.</summary>
    public ResourceScript? OnRead { get; set; }

    /// <summary>Plays for searches of any type but Patient, with the request.</summary>
    public ResourceScript? OnResourceSearch { get; set; }

    /// <summary>Creates and updates of one resource that arrived, stored or not.</summary>
    public List<SentRequest> Writes { get; } = [];

    /// <summary>Transactions that arrived, stored or not.</summary>
    public List<JsonObject> Transactions { get; } = [];

    /// <summary>Batches that arrived; what they hold is not among the requests.</summary>
    public List<JsonObject> Batches { get; } = [];

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

    /// <summary>Types of a whole session.</summary>
    public static IReadOnlyList<string> SessionTypes { get; } = ["Observation", "DiagnosticReport", "QuestionnaireResponse", "Device", "Provenance"];

    public static JsonObject Statement(
        bool? updateCreate = true, bool? conditionalCreate = true, bool? transaction = true, string version = "4.0.1", params string[] types)
    {
        types = types is [] ? [.. SessionTypes] : types;
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
            return Task.FromResult<IResponseMessage>(Route(
                new(request.Method, url.AbsolutePath["/fhir".Length..].Trim('/'), url.Query, sent, Header(request, "If-Match"), Header(request, "If-None-Exist"))));
        }
    }

    private static string? Header(IRequestMessage request, string name) =>
        request.Headers?.TryGetValue(name, out var value) == true ? value.ToString() : null;

    private ResponseMessage Route(SentRequest sent) => (sent.Method, sent.Path) switch
    {
        ("POST", "") when (string?)sent.Body!["type"] == "batch" => Batch(sent.Body),
        ("POST", "") => Transact(sent.Body!),
        ("GET", "metadata") => Play(OnMetadata, null, () => Json(Capabilities)),
        ("GET", "Patient") => Play(OnPatientSearch, null, () => Json(SearchSet(Patients.Where(p => FakeRecord.Matches(p, sent.Query))))),
        ("GET", var path) when path.StartsWith("Patient/", StringComparison.Ordinal) => Read(Patients.Find(p => path == $"Patient/{(string)p["id"]!}")),
        ("POST" or "PUT", _) => Write(sent),
        _ when sent.Id is not null => Play(OnRead, sent, () => Read(Record.Stored.GetValueOrDefault(sent.Path))),
        _ => Play(OnResourceSearch, sent, () => Play(OnSearch, null, () => Json(SearchSet(Record.Search(sent.Path, sent.Query))))),
    };

    private ResponseMessage Transact(JsonObject sent)
    {
        Transactions.Add(sent);
        return Play(OnTransaction, sent, () => Json(Record.Transact(sent)));
    }

    private ResponseMessage Batch(JsonObject sent)
    {
        Batches.Add(sent);
        return Play(OnBatch, sent, () => Json(new JsonObject
        {
            ["resourceType"] = "Bundle",
            ["type"] = "batch-response",
            ["entry"] = new JsonArray([.. sent["entry"]!.AsArray().Select(entry => Carry((string)entry!["request"]!["method"]!, (string)entry["request"]!["url"]!, entry["resource"] as JsonObject))]),
        }));
    }

    private JsonObject Carry(string method, string address, JsonObject? body)
    {
        var (path, query) = address.Split('?', 2) is [var before, var after] ? (before, "?" + after) : (address, "");
        var answer = Route(new(method, path, query, body, null, null));
        return new()
        {
            ["resource"] = JsonNode.Parse(answer.BodyData!.BodyAsString!),
            ["response"] = new JsonObject { ["status"] = $"{answer.StatusCode}" },
        };
    }

    private ResponseMessage Write(SentRequest sent)
    {
        Writes.Add(sent);
        return Play(OnWrite, sent, () => Record.Write(sent));
    }

    private static ResponseMessage Read(JsonObject? resource) => resource is null ? Outcome(404, "not-found", "No such resource") : Json(resource);

    private static ResponseMessage Play(ResourceScript? script, SentRequest sent, Func<ResponseMessage> usual) => script is null ? usual() : script(sent, usual);

    private static ResponseMessage Play(Script? script, JsonObject? sent, Func<ResponseMessage> usual) => script is null ? usual() : script(sent, usual);
}
