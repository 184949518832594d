using System.Globalization;

namespace HandFhirBridge.Record.Tests;

/// <summary>Criteria that many resources meet, each of which is answered in another way than those of few.</summary>
public sealed class ManyRowsSearchTests(ManyRowsSearchTests.Filled server) : IClassFixture<ManyRowsSearchTests.Filled>
{
    private const int Count = 1_800;

    // R4 search.html#combining: "multiple search parameters are to be combined with AND", commas with OR. What is expected is counted from
    // the rule the resources were made by.
    [Theory]
    [InlineData("code=urn:c|c1&status=final", 2, 1, 3, 0)]
    [InlineData("status=final&code=c1&performer:identifier=urn:s|s2", 2, 1, 3, 0, 5, 2)]
    [InlineData("code=c0,c1&status=amended", 3, 1)]
    [InlineData("code=c1&date=ge2020-01-01&date=lt2021&status=final", 2, 1, 3, 0)]
    [InlineData("code=c1&date=lt2020-01-01", 2, 0, 2, 1)]
    [InlineData("code=c1&performer:identifier=urn:s|s2&status:not=final,amended", 2, 1, 5, 2, 3, 2)]
    [InlineData("code=urn:c|&status=final", 3, 0)]
    [InlineData("status=final,final&code=c0", 2, 0, 3, 0)]
    [InlineData("code=c1&code-value-quantity=c1$4&status=final", 2, 1, 3, 0, 7, 4)]
    public async Task Search_OfManyRows_CountsWhatMeetsEveryCriterion(string query, params int[] rests)
    {
        var expected = Enumerable.Range(0, Count).Count(i => rests.Chunk(2).All(r => i % r[0] == r[1]));

        var answer = await server.Inner.GetAsync($"Observation?{query}&_count=0");

        ((int)answer.Json["total"]!).ShouldBe(expected, query);
    }

    public sealed class Filled : IAsyncLifetime
    {
        internal RecordServer Inner { get; } = new() { Options = path => new() { DatabasePath = path } };

        public async ValueTask InitializeAsync()
        {
            await Inner.InitializeAsync();
            string[] statuses = ["final", "amended", "corrected"];
            var entries = Enumerable.Range(0, Count).Select(i => string.Create(
                CultureInfo.InvariantCulture,
                $$$"""
                {"resource":{"resourceType":"Observation","id":"o{{{i}}}","status":"{{{statuses[i % 3]}}}","effectiveDateTime":"2020-0{{{1 + (i % 9)}}}-11",
                 "code":{"coding":[{"system":"urn:c","code":"c{{{i % 2}}}"}]},"valueQuantity":{"value":{{{i % 7}}}},
                 "performer":[{"identifier":{"system":"urn:s","value":"s{{{i % 5}}}"} }]},"request":{"method":"PUT","url":"Observation/o{{{i}}}"} }
                """));
            var answer = await Inner.SendAsync(HttpMethod.Post, "", $$"""{"resourceType":"Bundle","type":"transaction","entry":[{{string.Join(',', entries)}}]}""");
            answer.Status.ShouldBe(200, answer.Text);
        }

        public ValueTask DisposeAsync() => Inner.DisposeAsync();
    }
}
