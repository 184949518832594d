namespace HandFhirBridge.Record.Tests;

/// <summary>The examples of R4 search.html#date, one by one, and the rules of search.html#prefix where the examples are silent.</summary>
public sealed class DateSearchTests(DateSearchTests.Filled server) : IClassFixture<DateSearchTests.Filled>
{
    [Theory]
    [InlineData("eq2013-01-14", "at00 at10 day")] // "2013-01-14T00:00 matches (obviously)", "…T10:00 matches", "2013-01-15T00:00 does not match"
    [InlineData("2013-01-14", "at00 at10 day")] // no prefix is eq
    [InlineData("ne2013-01-14", "before from-jan from-mar next")] // "2013-01-15T00:00 matches", the other two do not
    [InlineData("lt2013-01-14T10:00", "at00 before day")] // "2013-01-14 matches, because it includes the part of 14-Jan 2013 before 10am"
    [InlineData("gt2013-01-14T10:00", "before day from-jan from-mar next")] // "… the part of 14-Jan 2013 after 10am"
    [InlineData("ge2013-03-14", "from-jan from-mar")] // "that period may include times after 14-Mar 2013"
    [InlineData("le2013-03-14", "at00 at10 before day from-jan next")] // "that period may include times before 14-Mar 2013"
    [InlineData("sa2013-03-14", "from-mar")] // and neither of the other two periods
    [InlineData("eb2013-03-14", "at00 at10 before day next")] // "before and including 21-Jan 2013", and neither of the other two
    [InlineData("sa2013-01-14", "from-jan from-mar next")]
    [InlineData("eb2013-01-15", "at00 at10 day")]
    [InlineData("2013", "at00 at10 day next")] // a year contains its days, not a period that leaves it
    [InlineData("2013-01", "at00 at10 day next")]
    [InlineData("2013-02", "")]
    [InlineData("2013-01-14T12:00:00%2B02:00", "at10")] // the same instant by another offset
    [InlineData("gt2013-01-14&date=lt2013-01-16", "before next")] // repeated: both must hold, each on its own
    public async Task Search_ByDate_FollowsTheExamples(string date, string ids) => await server.Inner.ExpectAsync($"Procedure?date={date}", ids);

    [Theory]
    [InlineData("ge9999-12-31", "from-jan from-mar")]
    [InlineData("lt0001-01-02", "before")]
    public async Task Search_AtTheEndsOfTheCalendar_Answers(string date, string ids) => await server.Inner.ExpectAsync($"Procedure?date={date}", ids);

    public sealed class Filled : IAsyncLifetime
    {
        public RecordServer Inner { get; } = new();

        public async ValueTask InitializeAsync()
        {
            await Inner.InitializeAsync();
            await Inner.PutAsync(
                Procedure("at00", "\"performedDateTime\":\"2013-01-14T00:00:00Z\""),
                Procedure("at10", "\"performedDateTime\":\"2013-01-14T10:00:00Z\""),
                Procedure("next", "\"performedDateTime\":\"2013-01-15T00:00:00Z\""),
                Procedure("day", "\"performedDateTime\":\"2013-01-14\""),
                Procedure("from-jan", "\"performedPeriod\":{\"start\":\"2013-01-21\"}"),
                Procedure("from-mar", "\"performedPeriod\":{\"start\":\"2013-03-15\"}"),
                Procedure("before", "\"performedPeriod\":{\"end\":\"2013-01-21\"}"));
        }

        public ValueTask DisposeAsync() => Inner.DisposeAsync();

        private static string Procedure(string id, string performed) =>
            $$"""{"resourceType":"Procedure","id":"{{id}}","status":"completed","subject":{"reference":"Patient/p1"},{{performed}}}""";
    }
}
