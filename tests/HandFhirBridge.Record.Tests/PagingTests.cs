using System.Globalization;

namespace HandFhirBridge.Record.Tests;

// R4 http.html#paging, search.html#sort
public sealed class PagingTests(PagingTests.Filled server) : IClassFixture<PagingTests.Filled>
{
    [Theory]
    [InlineData("_sort=birthdate", "c a b d e")] // those without a value come last
    [InlineData("_sort=-birthdate", "b a c d e")]
    [InlineData("_sort=family,-birthdate", "b a c d e")]
    [InlineData("_sort=-family,birthdate", "d e c a b")]
    [InlineData("_sort=_id", "a b c d e")]
    [InlineData("", "a b c d e")]
    public async Task Search_InPagesOfTwo_GivesEveryMatchOnceInOrder(string sort, string ids)
    {
        var whole = await Ids($"Patient?active=true&{sort}&_count=2");

        whole.ShouldBe(ids.Split(' '));
    }

    [Fact]
    public async Task Search_WhileOthersWrite_RepeatsAndSkipsNothing()
    {
        var first = await server.Inner.GetAsync("Patient?active=false&_sort=birthdate&_count=2");
        first.Ids.ShouldBe(["w1", "w2"]);
        await server.Inner.PutAsync(Patient("w0", "1900-01-01", false));
        (await server.Inner.SendAsync(HttpMethod.Delete, "Patient/w1")).Status.ShouldBe(204);

        (await Ids(first.Link("next")!)).ShouldBe(["w3", "w4"]);
    }

    // R4 http.html#paging: "self" is what was asked for; there is no next after the last.
    [Fact]
    public async Task Search_LastPage_HasNoNext()
    {
        var answer = await server.Inner.GetAsync("Patient?active=true&_count=5");

        answer.Link("next").ShouldBeNull();
        answer.Link("self")!.ShouldBe("http://localhost/clinic/fhir/Patient?active=true&_count=5");
        answer.Json["total"]!.GetValue<int>().ShouldBe(5);
    }

    private async Task<List<string>> Ids(string url)
    {
        var found = new List<string>();
        for (var next = (string?)url; next is not null;)
        {
            var page = await server.Inner.GetAsync(next);
            page.Status.ShouldBe(200, page.Text);
            found.AddRange(page.Ids);
            next = page.Link("next");
        }

        return found;
    }

    private static string Patient(string id, string? born, bool active = true, string? family = "Ames") => string.Create(
        CultureInfo.InvariantCulture,
        $$"""{"resourceType":"Patient","id":"{{id}}","active":{{(active ? "true" : "false")}},"name":[{"family":"{{family}}"}]{{(born is null ? "" : $",\"birthDate\":\"{born}\"")}}}""");

    public sealed class Filled : IAsyncLifetime
    {
        public RecordServer Inner { get; } = new();

        public async ValueTask InitializeAsync()
        {
            await Inner.InitializeAsync();
            await Inner.PutAsync(
                Patient("a", "1960-05-01"), Patient("b", "1970"), Patient("c", "1950-01"), Patient("d", null, family: "Zorn"), Patient("e", null, family: "Zorn"));
            await Inner.PutAsync(Enumerable.Range(1, 4).Select(i => Patient($"w{i}", $"195{i}-01-01", active: false)));
        }

        public ValueTask DisposeAsync() => Inner.DisposeAsync();
    }
}
