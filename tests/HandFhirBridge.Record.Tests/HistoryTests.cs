using Microsoft.Extensions.Time.Testing;

namespace HandFhirBridge.Record.Tests;

// R4 http.html#history; quoted are its words.
public sealed class HistoryTests : IAsyncLifetime
{
    private readonly FakeTimeProvider clock = new(new DateTimeOffset(2026, 3, 1, 8, 0, 0, TimeSpan.Zero));
    private RecordServer server = null!;

    // One write a minute: p1, o1, p2, p1 again, o1 deleted, p2 again.
    public async ValueTask InitializeAsync()
    {
        server = new RecordServer { Clock = clock };
        await server.InitializeAsync();
        await WriteAsync("Patient/p1");
        await WriteAsync("Organization/o1");
        await WriteAsync("Patient/p2");
        await WriteAsync("Patient/p1");
        await server.SendAsync(HttpMethod.Delete, "Organization/o1");
        clock.Advance(TimeSpan.FromMinutes(1));
        await WriteAsync("Patient/p2");
    }

    public ValueTask DisposeAsync() => server.DisposeAsync();

    // "the history of either a particular resource, all resources of a given type, or all resources supported by the system"; "sorted with oldest
    // versions last, and including deleted resources".
    [Theory]
    [InlineData("_history", "p2/2 o1/2! p1/2 p2/1 o1/1 p1/1")]
    [InlineData("Patient/_history", "p2/2 p1/2 p2/1 p1/1")]
    [InlineData("Organization/_history", "o1/2! o1/1")]
    [InlineData("Group/_history", "")]
    [InlineData("Patient/p1/_history", "p1/2 p1/1")]
    // "_since: Only include resource versions that were created at or after the given instant in time"
    [InlineData("_history?_since=2026-03-01T08:03:00Z", "p2/2 o1/2! p1/2")]
    [InlineData("_history?_since=2026-03-01T08:03:00.0001Z", "p2/2 o1/2!")]
    [InlineData("Patient/_history?_since=2026-03-01T08:03:00Z", "p2/2 p1/2")]
    [InlineData("Patient/p1/_history?_since=2026-03-01T08:03:00Z", "p1/2")]
    [InlineData("_history?_since=2026-03-02", "")]
    // "_at: Only include resource versions that were current at some point during the time period specified"
    [InlineData("_history?_at=2026-03-01T08:02:30Z", "p2/1 o1/1 p1/1")]
    [InlineData("_history?_at=2026-03-01T08:03", "p1/2 p2/1 o1/1")]
    [InlineData("Patient/_history?_at=2026-03-01", "p2/2 p1/2 p2/1 p1/1")]
    [InlineData("_history?_at=2026-02", "")]
    public async Task History_OfEachLevel_IsNewestFirst(string url, string versions)
    {
        var answer = await server.GetAsync(url);

        answer.Status.ShouldBe(200, answer.Text);
        ((string)answer.Json["type"]!).ShouldBe("history");
        Versions(answer).ShouldBe(versions);
        answer.Json["total"]!.GetValue<int>().ShouldBe(versions.Split(' ', StringSplitOptions.RemoveEmptyEntries).Length);
    }

    // R4 bundle.html, invariants bdl-3 and bdl-4: an entry of a history has a request and a response; a deletion left no resource to show.
    [Fact]
    public async Task History_Entries_HaveRequestAndResponse()
    {
        var entries = (await server.GetAsync("Organization/_history")).Json["entry"]!.AsArray();

        entries.Select(e => ((string)e!["request"]!["method"]!, (string)e["request"]!["url"]!, e["resource"] is null, ((string)e["response"]!["status"]!)[..3]))
            .ShouldBe([("DELETE", "Organization/o1", true, "204"), ("PUT", "Organization/o1", false, "201")]);
        entries.Select(e => (string)e!["response"]!["etag"]!).ShouldBe(["W/\"2\"", "W/\"1\""]);
    }

    // "_count: The maximum number of search results on a page"; R4 http.html#paging: links first and next. What is written meanwhile moves nothing.
    [Theory]
    [InlineData("_history", "_count=4", "p2/2 o1/2! p1/2 p2/1|o1/1 p1/1")]
    [InlineData("Patient/_history", "_count=3", "p2/2 p1/2 p2/1|p1/1")]
    [InlineData("Patient/p1/_history", "_count=1", "p1/2|p1/1")]
    [InlineData("_history", "_count=2&_since=2026-03-01T08:02:00Z", "p2/2 o1/2!|p1/2 p2/1")]
    [InlineData("_history", "_count=0", "")]
    public async Task History_InPages_GivesEachVersionOnce(string url, string query, string pages)
    {
        var seen = new List<string>();
        for (string? next = $"{url}?{query}"; next is not null;)
        {
            var answer = await server.GetAsync(next);
            answer.Status.ShouldBe(200, answer.Text);
            seen.Add(Versions(answer));
            next = answer.Link("next");
            await WriteAsync("Patient/later");
        }

        string.Join('|', seen).ShouldBe(pages);
    }

    // All versions of one instant, as a transaction writes them.
    [Fact]
    public async Task History_WrittenInOneInstant_IsPagedToo()
    {
        var entries = Enumerable.Range(0, 7).Select(i => $$"""{"resource":{"resourceType":"Group","id":"g{{i}}","type":"person","actual":true},"request":{"method":"PUT","url":"Group/g{{i}}"} }""");
        (await server.SendAsync(HttpMethod.Post, "", $$"""{"resourceType":"Bundle","type":"transaction","entry":[{{string.Join(',', entries)}}]}""")).Status.ShouldBe(200);

        var seen = new List<string>();
        for (var next = "Group/_history?_count=3"; next is not null;)
        {
            var answer = await server.GetAsync(next);
            seen.AddRange(answer.Ids);
            next = answer.Link("next");
        }

        seen.Order().ShouldBe(Enumerable.Range(0, 7).Select(i => $"g{i}"));
    }

    [Theory]
    [InlineData("Cat/_history", 404)]
    [InlineData("Patient/never/_history", 404)]
    [InlineData("_history?_count=many", 400)]
    [InlineData("_history?_since=yesterday", 400)]
    [InlineData("Patient/_history?_at=now", 400)]
    [InlineData("Patient/p1/_history?_sort=date", 400)]
    [InlineData("Patient/p1/_history?_after=x", 400)]
    public async Task History_NotUnderstood_IsRefused(string url, int status)
    {
        var answer = await server.GetAsync(url);

        answer.Status.ShouldBe(status, answer.Text);
        ((string)answer.Json["resourceType"]!).ShouldBe("OperationOutcome");
    }

    [Fact]
    public async Task History_UnknownParameterLenient_IsLeftOutOfTheLinks()
    {
        var answer = await server.SendAsync(HttpMethod.Get, "_history?_count=9&shoe=1", null, ("Prefer", "handling=lenient"));

        answer.Status.ShouldBe(200);
        answer.Link("self").ShouldBe("http://localhost/clinic/fhir/_history?_count=9");
    }

    private async Task WriteAsync(string place)
    {
        var answer = await server.SendAsync(HttpMethod.Put, place, $$"""{"resourceType":"{{place.Split('/')[0]}}","id":"{{place.Split('/')[1]}}","active":true}""");
        answer.Status.ShouldBeInRange(200, 201, answer.Text);
        clock.Advance(TimeSpan.FromMinutes(1));
    }

    private static string Versions(RecordServer.Answer answer) => string.Join(' ', (answer.Json["entry"]?.AsArray() ?? []).Select(e =>
        $"{((string)e!["request"]!["url"]!).Split('/')[1]}/{((string)e["response"]!["etag"]!)[3..^1]}{((string)e["request"]!["method"]! == "DELETE" ? "!" : "")}"));
}
