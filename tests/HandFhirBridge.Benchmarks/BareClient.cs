using System.Collections.Concurrent;
using System.Diagnostics;
using System.Text;
using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Benchmarks;

/// <summary>An HTTP client and nothing around it: it sends requests that are ready, and looks at nothing but the status.</summary>
internal static class BareClient
{
    /// <summary>Milliseconds a session, the requests of so many sessions under way at a time.</summary>
    /// <param name="record">Where.</param>
    /// <param name="sessions">Which.</param>
    /// <param name="concurrency">Sessions at a time.</param>
    /// <param name="isWhole">True to ask for the chart before, and for everything after, as the bridge does; false only posts.</param>
    internal static async Task<double> MeasureAsync(RecordHost record, AcceptedSession[] sessions, int concurrency, bool isWhole)
    {
        var ready = new ConcurrentQueue<Conversation>(sessions.Select(Conversation.Of));
        var start = Stopwatch.GetTimestamp();
        await Task.WhenAll(Enumerable.Range(0, concurrency).Select(async _ =>
        {
            while (ready.TryDequeue(out var session))
            {
                if (isWhole)
                {
                    await record.GetAsync(session.Chart);
                }

                await record.PostAsync(session.Transaction);
                if (isWhole)
                {
                    await record.PostAsync(session.ReadBack);
                }
            }
        }));
        return Stopwatch.GetElapsedTime(start).TotalMilliseconds / sessions.Length;
    }

    private sealed record Conversation(string Chart, ReadOnlyMemory<byte> Transaction, ReadOnlyMemory<byte> ReadBack)
    {
        public static Conversation Of(AcceptedSession session)
        {
            var resources = JsonNode.Parse(session.Bundle.Span)!["entry"]!.AsArray().Select(entry => (Url: (string)entry!["fullUrl"]!, Resource: entry["resource"]!)).ToList();
            var report = resources.Single(entry => (string)entry.Resource["resourceType"]! == "DiagnosticReport").Resource;
            var included = report["result"]!.AsArray().Select(result => (string)result!["reference"]!).ToHashSet();
            var others = resources.Where(entry => !included.Contains(entry.Url) && entry.Resource != report)
                .Select(entry => $"{entry.Resource["resourceType"]}/{entry.Resource["id"]}");
            var batch = new JsonObject
            {
                ["resourceType"] = "Bundle",
                ["type"] = "batch",
                ["entry"] = new JsonArray([.. others.Prepend($"DiagnosticReport?identifier={Token(report["identifier"]![0]!)}&_include=DiagnosticReport:result")
                    .Select(address => new JsonObject { ["request"] = new JsonObject { ["method"] = "GET", ["url"] = address } })]),
            };
            var (system, value) = (session.Patient.Identifier.System, session.Patient.Identifier.Value);
            return new($"Patient?identifier={Uri.EscapeDataString($"{system}|{value}")}", session.Bundle, Encoding.UTF8.GetBytes(batch.ToJsonString()));
        }

        private static string Token(JsonNode identifier) => Uri.EscapeDataString($"{identifier["system"]}|{identifier["value"]}");
    }
}
