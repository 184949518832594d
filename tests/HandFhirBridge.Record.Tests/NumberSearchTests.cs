namespace HandFhirBridge.Record.Tests;

/// <summary>The examples of R4 search.html#number and #quantity.</summary>
public sealed class NumberSearchTests(NumberSearchTests.Filled server) : IClassFixture<NumberSearchTests.Filled>
{
    [Theory]
    [InlineData("100", "n100 n99.5")] // "in the range [99.5 ... 100.5)"
    [InlineData("100.00", "n100")] // "in the range [99.995 ... 100.005)"
    [InlineData("1e2", "n100 n100.5 n95 n99.5")] // "in the range [95 ... 105)"
    [InlineData("lt100", "n95 n99.5")] // "less than exactly 100"
    [InlineData("le100", "n100 n95 n99.5")]
    [InlineData("gt100", "n100.5 n105")]
    [InlineData("ge100", "n100 n100.5 n105")]
    [InlineData("ne100", "n100.5 n105 n95")] // "not equal to 100 (actually, in the range 99.5 to 100.5)"
    public async Task Search_ByNumber_FollowsTheExamples(string number, string ids) =>
        await server.Inner.ExpectAsync($"RiskAssessment?probability={number}", ids);

    [Theory]
    [InlineData("5.4|http://unitsofmeasure.org|mg", "q5.36 q5.4")] // "5.4(+/-0.05) mg"
    [InlineData("5.4||mg", "q5.36 q5.4 unit")] // "… where the unit - either the code (code) or the stated human unit (unit) are 'mg'"
    [InlineData("5.40|http://unitsofmeasure.org|mg", "q5.4")]
    [InlineData("le5.4|http://unitsofmeasure.org|mg", "q5.36 q5.4")]
    [InlineData("5.4", "gram q5.36 q5.4 unit")]
    [InlineData("5.4|http://unitsofmeasure.org|kg", "")]
    // A bound is not a value. Common practice, no source: R4 does not say how a comparator in the resource is searched.
    [InlineData("180|http://unitsofmeasure.org|s", "")]
    [InlineData("gt150|http://unitsofmeasure.org|s", "capped")]
    [InlineData("gt200|http://unitsofmeasure.org|s", "capped")]
    [InlineData("le180|http://unitsofmeasure.org|s", "")]
    public async Task Search_ByQuantity_FollowsTheExamples(string quantity, string ids) =>
        await server.Inner.ExpectAsync($"Observation?value-quantity={Uri.EscapeDataString(quantity)}", ids);

    public sealed class Filled : IAsyncLifetime
    {
        public RecordServer Inner { get; } = new();

        public async ValueTask InitializeAsync()
        {
            await Inner.InitializeAsync();
            await Inner.PutAsync(new[] { "95", "99.5", "100", "100.5", "105" }.Select(n =>
                $$"""{"resourceType":"RiskAssessment","id":"n{{n}}","status":"final","subject":{"reference":"Patient/p1"},"prediction":[{"probabilityDecimal":{{n}}}]}"""));
            await Inner.PutAsync(
                Observation("q5.36", "\"value\":5.36,\"system\":\"http://unitsofmeasure.org\",\"code\":\"mg\""),
                Observation("q5.4", "\"value\":5.4,\"system\":\"http://unitsofmeasure.org\",\"code\":\"mg\""),
                Observation("unit", "\"value\":5.4,\"unit\":\"mg\""),
                Observation("gram", "\"value\":5.4,\"system\":\"http://unitsofmeasure.org\",\"code\":\"g\""),
                Observation("capped", "\"value\":180,\"comparator\":\">\",\"system\":\"http://unitsofmeasure.org\",\"code\":\"s\""));
        }

        public ValueTask DisposeAsync() => Inner.DisposeAsync();

        private static string Observation(string id, string quantity) =>
            $$"""{"resourceType":"Observation","id":"{{id}}","status":"final","code":{"text":"x"},"valueQuantity":{ {{quantity}} } }""";
    }
}
