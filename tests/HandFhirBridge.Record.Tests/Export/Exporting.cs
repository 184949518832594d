using System.Text.Json.Nodes;

namespace HandFhirBridge.Record.Tests.Export;

/// <summary>A client of the bulk export, as FHIR Bulk Data Access 2.0 has it (http://hl7.org/fhir/uv/bulkdata/STU2/export.html).</summary>
internal static class Exporting
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    /// <summary>Kick-off that is accepted.</summary>
    /// <returns>The status URL.</returns>
    public static async Task<string> BeginAsync(this RecordServer server, string url, string? body = null)
    {
        var answer = await server.KickOffAsync(url, body);
        answer.Status.ShouldBe(202, answer.Text);
        return answer.Message.Content.Headers.GetValues("Content-Location").ShouldHaveSingleItem();
    }

    public static Task<RecordServer.Answer> KickOffAsync(this RecordServer server, string url, string? body = null, string prefer = "respond-async") =>
        server.SendAsync(body is null ? HttpMethod.Get : HttpMethod.Post, url, body, ("Accept", "application/fhir+json"), ("Prefer", prefer));

    /// <summary>Asks until the export is done.</summary>
    public static async Task<Manifest> DoneAsync(this RecordServer server, string status)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(Cancellation);
        limit.CancelAfter(TimeSpan.FromMinutes(2));
        while (true)
        {
            var answer = await server.SendAsync(HttpMethod.Get, status, null, ("Accept", "application/json"));
            if (answer.Status == 200)
            {
                answer.Message.Content.Headers.ContentType!.MediaType.ShouldBe("application/json");
                return new(server, answer.Json, answer.Message.Content.Headers.Expires);
            }

            answer.Status.ShouldBe(202, answer.Text);
            await Task.Yield();
            limit.Token.ThrowIfCancellationRequested();
        }
    }

    public static async Task<Manifest> ExportAsync(this RecordServer server, string url, string? body = null) => await server.DoneAsync(await server.BeginAsync(url, body));

    public sealed record Manifest(RecordServer Server, JsonNode Json, DateTimeOffset? Expires)
    {
        public string TransactionTime => (string)Json["transactionTime"]!;

        public IReadOnlyList<JsonNode> Files(string kind) => [.. Json[kind]!.AsArray().Select(f => f!)];

        /// <summary>Text of each line of an array's files.</summary>
        public async Task<IReadOnlyList<string>> LinesAsync(string kind = "output")
        {
            var all = new List<string>();
            foreach (var file in Files(kind))
            {
                var answer = await Server.SendAsync(HttpMethod.Get, (string)file["url"]!, null, ("Accept", "application/fhir+ndjson"));
                answer.Status.ShouldBe(200, answer.Text);
                answer.Message.Content.Headers.ContentType!.ToString().ShouldBe("application/fhir+ndjson");
                answer.Text.ShouldEndWith("\n");
                string[] lines = answer.Text[..^1].Split('\n');
                lines.ShouldAllBe(l => (string)JsonNode.Parse(l)!["resourceType"]! == (string)file["type"]!);
                lines.Length.ShouldBe((int)file["count"]!);
                all.AddRange(lines);
            }

            return all;
        }

        /// <summary>The resources, as <c>Type/id</c>, in order and separated by spaces.</summary>
        public async Task<string> ReferencesAsync() => string.Join(' ', (await LinesAsync()).Select(l => JsonNode.Parse(l)!).Select(r => $"{r["resourceType"]}/{r["id"]}").Order(StringComparer.Ordinal));
    }
}
