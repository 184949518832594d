using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Ledger;
using WireMock;

namespace HandFhirBridge.Delivery.Tests.Servers;

/// <summary>
/// Ways servers behave: what R4 (http.html) leaves open, and where servers are known to depart from it. Common practice, no
/// source, unless one is named.
/// </summary>
internal static class ServerBehaviours
{
    public static IEnumerable<ServerBehaviour> All =>
    [
        .. Transactions(), .. SingleWrites(), .. Interruptions(), .. Searches(), .. Documents(), .. Keepings(),
    ];

    private static IEnumerable<ServerBehaviour> Transactions() =>
    [
        new("takes transactions of updates", _ => { }, 1),
        new("declares nothing", t => t.OnMetadata = (_, _) => ScriptedTarget.Answer(404, "<html/>"), 1),
        new("refuses client ids with 400", t => t.OnTransaction = RefuseUpdates(400), 2),
        new("refuses client ids with 405", t => t.OnTransaction = RefuseUpdates(405), 2),
        new("refuses client ids with 422", t => t.OnTransaction = RefuseUpdates(422), 2),
        new("offers conditional creates only", t => t.Capabilities = ScriptedTarget.Statement(updateCreate: false), 2),
        new("takes at most 8 entries in a transaction with conditions", t =>
        {
            t.Capabilities = ScriptedTarget.Statement(updateCreate: false);
            t.OnTransaction = (sent, usual) => sent!["entry"]!.AsArray().Count > 8 ? ScriptedTarget.Outcome(400, "too-costly", "At most 8 entries") : usual();
        }, 3),
        new("finds transactions too large", t => t.OnTransaction = (_, _) => ScriptedTarget.Answer(413), 3),
        new("has no transactions, says so when asked for one", t => t.OnTransaction = (_, _) => ScriptedTarget.Outcome(501, "not-supported", "No"), 3),
        new("has no address for transactions", t =>
        {
            t.OnMetadata = (_, _) => ScriptedTarget.Answer(404);
            t.OnTransaction = (_, _) => ScriptedTarget.Answer(404, "<html>Not found</html>");
        }, 3),
        new("answers 200 to a transaction stored in part", t => t.OnTransaction = StoreInPart(t), 3),
        new("finds fault with an element of one entry", t => t.OnTransaction = (_, _) =>
            ScriptedTarget.Outcome(422, "code-invalid", "Unknown unit", "Bundle.entry[4].resource.valueQuantity.code"), 2, DeliveryState.Failed, "HFB4004"),
        new("answers entries with a status and no text", Answering(r => r["status"] = "201"), 1),
        new("answers entries with absolute locations", Answering(r => r["location"] = "https://record.example/fhir/" + (string)r["location"]!), 1),
        new("answers entries without locations", Answering(r => r.Remove("location")), 1),
        new("answers 412 to a transaction that it stored", t => t.OnTransaction = (_, usual) => After(usual, ScriptedTarget.Answer(412)), 1),
        new("answers 200 with a page to a transaction that it stored", t => t.OnTransaction = (_, usual) => After(usual, ScriptedTarget.Answer(200, "<html/>")), 1),
        new("answers 504 to a transaction that it stored", t => t.OnTransaction = (_, usual) => After(usual, ScriptedTarget.Answer(504)), null),
    ];

    private static IEnumerable<ServerBehaviour> SingleWrites() =>
    [
        new("offers no transactions", t => t.Capabilities = Single(updateCreate: true), 3),
        new("offers no transactions and gives its own ids", t => t.Capabilities = Single(), 3),
        new("declares update as create and refuses client ids", t =>
        {
            t.Capabilities = Single(updateCreate: true);
            t.OnWrite = (sent, usual) => sent.Method == "PUT" && !t.Record.Stored.ContainsKey(sent.Path) ? ScriptedTarget.Outcome(405, "not-supported", "No") : usual();
        }, 3),
        new("ignores If-None-Exist", t =>
        {
            t.Capabilities = Single();
            t.OnWrite = (sent, _) => t.Record.Write(sent with { IfNoneExist = null });
        }, 3),
        Creating("answers creates with a relative location and no body", (_, location) => Created("", location[(location.IndexOf("/fhir/", StringComparison.Ordinal) + 6)..])),
        Creating("answers creates with a location without a version", (_, location) => Created("", location[..location.IndexOf("/_history", StringComparison.Ordinal)])),
        Creating("answers creates with the resource and no location", (body, _) => ScriptedTarget.Answer(201, body, "application/fhir+json")),
        Creating("answers creates with neither location nor body", (_, _) => ScriptedTarget.Answer(201)),
        Creating("answers creates with a page", (_, _) => ScriptedTarget.Answer(201, "<html>Created</html>")),
        Creating("answers creates with an OperationOutcome", (_, _) => ScriptedTarget.Outcome(201, "informational", "Created")),
        Creating("answers creates with 200", (body, _) => ScriptedTarget.Answer(200, body, "application/fhir+json")),
        Creating("answers creates with 202 and stores them", (_, _) => ScriptedTarget.Answer(202)),
        Creating("answers creates with 409 and stores them", (_, _) => ScriptedTarget.Outcome(409, "conflict", "Exists")),
        new("gives no versions", t =>
        {
            t.Capabilities = Single();
            t.OnRead = (sent, _) => t.Record.Stored.TryGetValue(sent.Path, out var r) ? ScriptedTarget.Json(WithoutVersion(r)) : ScriptedTarget.Answer(404);
            t.OnResourceSearch = (sent, _) => ScriptedTarget.Json(ScriptedTarget.SearchSet(t.Record.Search(sent.Path, sent.Query).Select(WithoutVersion)));
        }, 3),
        new("refuses a single write and has no documents", t =>
        {
            t.Capabilities = Single();
            t.OnWrite = (sent, usual) => sent.Method == "POST" && sent.Type == "DiagnosticReport" ? ScriptedTarget.Outcome(422, "processing", "No") : usual();
        }, 3, DeliveryState.Failed, "HFB4019"),
    ];

    private static IEnumerable<ServerBehaviour> Interruptions() =>
    [
        .. new[] { 408, 500, 502, 503, 504 }.Select(status => Interrupting(
            string.Create(CultureInfo.InvariantCulture, $"answers one create with {status} and does not store it"), (_, _) => ScriptedTarget.Answer(status))),
        .. new[] { 408, 500, 504 }.Select(status => Interrupting(
            string.Create(CultureInfo.InvariantCulture, $"answers one create with {status} and stores it"), (_, usual) => After(usual, ScriptedTarget.Answer(status)))),
        Interrupting("asks for fewer requests in the middle", (_, _) => ScriptedTarget.Answer(429, "", "text/plain", ("Retry-After", "3"))),
        Interrupting("fails in the middle, and its searches read a list as one value", (_, _) => ScriptedTarget.Answer(503), t =>
            t.OnResourceSearch = (sent, usual) => sent.Query.Contains(',', StringComparison.Ordinal) ? Nothing() : usual()),
        Interrupting("fails in the middle, and refuses searches by identifier", (_, _) => ScriptedTarget.Answer(503), t =>
            t.OnResourceSearch = (sent, usual) => Reached(sent) && sent.Query.Contains("identifier=", StringComparison.Ordinal)
                ? ScriptedTarget.Outcome(400, "not-supported", "Unknown parameter") : usual()),
        Interrupting("fails in the middle, and its search by date misses timed values", (_, _) => ScriptedTarget.Answer(503), t =>
            t.OnResourceSearch = (sent, usual) => Reached(sent) && sent.Query.Contains("identifier=", StringComparison.Ordinal)
                ? ScriptedTarget.Outcome(400, "not-supported", "Unknown parameter")
                : sent.Query.Contains("date=", StringComparison.Ordinal) ? Nothing() : usual()),
    ];

    private static IEnumerable<ServerBehaviour> Searches() =>
    [
        new("ignores search parameters", t =>
        {
            t.Capabilities = Single();
            t.OnResourceSearch = (sent, _) => ScriptedTarget.Json(ScriptedTarget.SearchSet(OfType(t, sent.Type)));
        }, 3),
        new("ignores search parameters, and holds results of other patients", t =>
        {
            t.Capabilities = Single();
            t.Record.Stored["Observation/other"] = Other();
            t.OnResourceSearch = (sent, _) => ScriptedTarget.Json(ScriptedTarget.SearchSet(OfType(t, sent.Type)));
        }, 3, DeliveryState.Held, "HFB4018"),
        new("does not include results in a search", t => t.OnSearch = (_, _) => Nothing(), 1, DeliveryState.Failed, "HFB4005"),
        new("forbids searches", t => t.OnSearch = (_, _) => ScriptedTarget.Outcome(403, "forbidden", "No"), 1),
        new("holds one resource twice", t =>
        {
            t.Capabilities = Single();
            t.OnWrite = (sent, usual) =>
            {
                var answer = usual();
                if (sent.Type == "DiagnosticReport")
                {
                    t.Record.Keep("DiagnosticReport/copy", t.Record.Stored.Last(s => s.Key.StartsWith("DiagnosticReport/", StringComparison.Ordinal)).Value.DeepClone().AsObject());
                    return ScriptedTarget.Answer(201);
                }

                return answer;
            };
        }, 3, DeliveryState.Held, "HFB4011"),
    ];

    private static IEnumerable<ServerBehaviour> Documents() =>
    [
        new("declares no DiagnosticReport", t => t.Capabilities = Single(types: ["Observation", "DocumentReference"]), 4, Form: KeptForm.ObservationsAndDocument),
        new("declares documents only", t => t.Capabilities = Single(types: ["DocumentReference"]), 5, Form: KeptForm.Document),
        new("has no address for reports", t =>
        {
            t.Capabilities = Single(types: [.. ScriptedTarget.SessionTypes, "DocumentReference"]);
            t.OnWrite = (sent, usual) => sent.Type == "DiagnosticReport" ? ScriptedTarget.Answer(404) : usual();
        }, 4, Form: KeptForm.ObservationsAndDocument),
        new("forbids Observations", t =>
        {
            t.Capabilities = Single(types: [.. ScriptedTarget.SessionTypes, "DocumentReference"]);
            t.OnWrite = (sent, usual) => sent.Type == "Observation" ? ScriptedTarget.Outcome(403, "forbidden", "Scope") : usual();
        }, 5, Form: KeptForm.Document),
        new("moves the bytes of a document to an address of its own", t =>
        {
            t.Capabilities = Single(types: ["DocumentReference"]);
            t.Record.OnKeep = r =>
            {
                var attachment = r["content"]![0]!["attachment"]!.AsObject();
                attachment.Remove("data");
                attachment["url"] = "Binary/1";
            };
        }, 5, Form: KeptForm.Document),
        new("refuses searches of documents by identifier", t =>
        {
            t.Capabilities = Single(types: ["DocumentReference"]);
            t.OnResourceSearch = (sent, usual) => sent.Query.Contains("identifier=", StringComparison.Ordinal) ? ScriptedTarget.Outcome(400, "not-supported", "No") : usual();
        }, 5, Form: KeptForm.Document),
        new("answers a document with 504 and stores it", t =>
        {
            t.Capabilities = Single(types: ["DocumentReference"]);
            t.OnWrite = (_, usual) => After(usual, ScriptedTarget.Answer(504));
        }, null, Form: KeptForm.Document),
    ];

    private static IEnumerable<ServerBehaviour> Keepings() =>
    [
        new("loses trailing zeros of decimals", t => t.Record.OnKeep = r => Rewrite(r, ".00", ".0"), 1, Code: "HFB4020"),
        new("drops reference ranges", t => t.Record.OnKeep = r => r.Remove("referenceRange"), 1, Code: "HFB4020"),
        new("changes a code", t => t.Record.OnKeep = r => Rewrite(r, "\"final\"", "\"amended\""), 1, Code: "HFB4020"),
        new("keeps times in UTC", t => t.Record.OnKeep = r => Rewrite(r, "T09:05:00+01:00", "T08:05:00Z"), 1, Code: "HFB4020"),
        new("writes fractions of a second", t => t.Record.OnKeep = r => Rewrite(r, "T09:05:00+01:00", "T09:05:00.000+01:00"), 1),
        new("adds elements of its own", t => t.Record.OnKeep = r => r["language"] = "en", 1),
        new("cleans narratives", t => t.Record.OnKeep = r => Rewrite(r, "<table", "<table border='0'"), 1),
        new("makes references absolute", t => t.Record.OnKeep = r => Rewrite(r, "\"reference\":\"Obs", "\"reference\":\"https://record.example/fhir/Obs"), 1),
    ];

    private static JsonObject Single(bool updateCreate = false, params string[] types) =>
        ScriptedTarget.Statement(updateCreate: updateCreate, transaction: false, types: types);

    private static ServerBehaviour Creating(string name, Func<string, string, ResponseMessage> answer) => new(name, t =>
    {
        t.Capabilities = Single();
        t.OnWrite = (sent, usual) =>
        {
            var stored = usual();
            return sent.Method == "POST" ? answer(stored.BodyData!.BodyAsString!, stored.Headers!["Location"].ToString()) : stored;
        };
    }, 3);

    /// <summary>Once, at the tenth of the writes.</summary>
    private static ServerBehaviour Interrupting(string name, ScriptedTarget.ResourceScript once, Action<ScriptedTarget>? also = null) => new(name, t =>
    {
        t.Capabilities = Single();
        t.OnWrite = (sent, usual) => t.Writes.Count == 10 ? once(sent, usual) : usual();
        also?.Invoke(t);
    }, 3);

    private static bool Reached(SentRequest sent) => sent.Type is "Observation" or "DiagnosticReport" or "QuestionnaireResponse";

    private static ResponseMessage Nothing() => ScriptedTarget.Json(ScriptedTarget.SearchSet([]));

    private static ResponseMessage Created(string body, string location) => ScriptedTarget.Answer(201, body, "application/fhir+json", ("Location", location));

    private static ResponseMessage After(Func<ResponseMessage> usual, ResponseMessage answer)
    {
        usual();
        return answer;
    }

    private static ScriptedTarget.Script RefuseUpdates(int status) => (sent, usual) =>
        (string)sent!["entry"]![0]!["request"]!["method"]! == "PUT" ? ScriptedTarget.Outcome(status, "not-supported", "Client ids are not allowed") : usual();

    private static ScriptedTarget.Script StoreInPart(ScriptedTarget target) => (sent, _) =>
    {
        var stored = target.Record.Transact(sent!, index => index < 10)["entry"]!.AsArray();
        while (stored.Count < sent!["entry"]!.AsArray().Count)
        {
            stored.Add(new JsonObject { ["response"] = new JsonObject { ["status"] = "500 Internal Server Error" } });
        }

        return ScriptedTarget.Json(new JsonObject { ["resourceType"] = "Bundle", ["type"] = "batch-response", ["entry"] = stored.DeepClone() });
    };

    private static Action<ScriptedTarget> Answering(Action<JsonObject> change) => t => t.OnTransaction = (sent, _) =>
    {
        var answer = t.Record.Transact(sent!);
        foreach (var entry in answer["entry"]!.AsArray())
        {
            change(entry!["response"]!.AsObject());
        }

        return ScriptedTarget.Json(answer);
    };

    private static IEnumerable<JsonObject> OfType(ScriptedTarget target, string type) =>
        target.Record.Stored.Where(s => s.Key.StartsWith(type + "/", StringComparison.Ordinal)).Select(s => s.Value);

    private static JsonObject Other() => JsonNode.Parse(
        """{ "resourceType": "Observation", "id": "other", "subject": { "reference": "Patient/chart-9" }, "status": "final" }""")!.AsObject();

    private static JsonObject WithoutVersion(JsonObject resource)
    {
        var copy = resource.DeepClone().AsObject();
        copy["meta"]!.AsObject().Remove("versionId");
        return copy;
    }

    private static void Rewrite(JsonObject resource, string old, string replacement)
    {
        var text = resource.ToJsonString(new JsonSerializerOptions { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
        var changed = JsonNode.Parse(text.Replace(old, replacement, StringComparison.Ordinal))!.AsObject();
        resource.Clear();
        foreach (var (name, value) in changed.ToList())
        {
            changed.Remove(name);
            resource[name] = value;
        }
    }
}
