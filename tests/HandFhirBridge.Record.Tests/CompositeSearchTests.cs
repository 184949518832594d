using Microsoft.AspNetCore.TestHost;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Record.Tests;

// R4 search.html#composite and #has; queries that the specification writes out are marked as its own.
public sealed class CompositeSearchTests(CompositeSearchTests.Filled server) : IClassFixture<CompositeSearchTests.Filled>
{
    [Theory]
    [InlineData("DiagnosticReport?result.code-value-quantity=http://loinc.org|2823-3$gt5.4|http://unitsofmeasure.org|mmol/L", "dr1")] // its own
    [InlineData("DiagnosticReport?result.code-value-quantity=http://loinc.org|2823-3$gt5.6|http://unitsofmeasure.org|mmol/L", "")]
    [InlineData("Group?characteristic-value=gender$mixed", "g1")] // its own
    [InlineData("Group?characteristic-value=gender$child", "")] // each is there, but not on one characteristic
    [InlineData("Group?characteristic=gender&value=child", "g1")] // "it doesn't matter which": what a composite is for
    [InlineData("Observation?code-value-quantity=2823-3$5.5", "k1")]
    [InlineData("Observation?code-value-quantity=2823-3$5.5,2823-3$4.9", "k1 k2")]
    [InlineData("Observation?code-value-quantity=2823-3$5.5&patient=a", "k1")]
    [InlineData("Observation?code-value-quantity=8480-6$107", "")] // its quantities stand in components
    [InlineData("Observation?component-code-value-quantity=8480-6$107", "bp")]
    [InlineData("Observation?component-code-value-quantity=8480-6$60", "")]
    [InlineData("Observation?component-code-value-quantity=8480-6$gt100,8462-4$gt100", "bp")]
    [InlineData("Observation?component-code-value-quantity=8480-6$gt100&component-code-value-quantity=8462-4$lt80", "bp")]
    [InlineData("Observation?combo-code-value-quantity=8462-4$60", "bp")]
    [InlineData("Observation?combo-code-value-quantity=2823-3$5.5", "k1")]
    [InlineData("Observation?code-value-concept=side$right", "hand")]
    [InlineData("Patient?_has:Observation:patient:code=2823-3", "a b")] // the form of its own example
    [InlineData("Patient?_has:Observation:patient:code=8480-6", "a")]
    [InlineData("Patient?_has:Observation:patient:_has:AuditEvent:entity:agent=MyUserId", "b")] // the form of its own nested example
    [InlineData("Patient?_has:Observation:patient:code=2823-3&_has:Observation:patient:code=8480-6", "a")]
    [InlineData("Patient?_has:Observation:patient:code-value-quantity=2823-3$lt5", "b")]
    [InlineData("Patient?_has:Observation:patient:patient.family=one", "a")]
    [InlineData("Patient?family=two&_has:Observation:subject:code=2823-3", "b")]
    [InlineData("Observation?patient._has:Observation:patient:code=8480-6", "bp hand k1")]
    [InlineData("Device?_has:Observation:subject:code=2823-3", "")]
    public async Task Search_OfValuesThatBelongTogether_FindsExactly(string query, string ids) => await server.Inner.ExpectAsync(query, ids);

    [Theory]
    [InlineData("Observation?code-value-quantity=2823-3", "joined by $")]
    [InlineData("Observation?code-value-quantity=2823-3$1$2", "joined by $")]
    [InlineData("Observation?code-value-quantity=2823-3$fast", "fast")]
    [InlineData("Observation?code-value-quantity:missing=true", "takes none")]
    [InlineData("Observation?_sort=code-value-quantity", "_sort")]
    [InlineData("Patient?_has:Observation:code=1", "_has:Observation:code")]
    [InlineData("Patient?_has:Observation:device:code=1", "points at Patient")]
    [InlineData("Patient?_has:Observation:patient:shoe=1", "shoe")]
    [InlineData("Patient?_has:Cat:patient:code=1", "Cat")]
    [InlineData("Patient?_has=1", "_has")]
    public async Task Search_NotUnderstood_IsRefusedByName(string query, string named)
    {
        var answer = await server.Inner.GetAsync(query);

        answer.Status.ShouldBe(400, answer.Text);
        answer.Text.ShouldContain(named);
    }

    // What an update takes away is not found any more, in groups as in single values.
    [Fact]
    public async Task Update_OfAComponent_IsSearchedByItsNewValueAlone()
    {
        await server.Inner.PutAsync(Components("change", 150, 90));
        (await server.Inner.SendAsync(HttpMethod.Put, "Observation/change", Components("change", 160, 95))).Status.ShouldBe(200);

        await server.Inner.ExpectAsync("Observation?component-code-value-quantity=8480-6$150", "");
        await server.Inner.ExpectAsync("Observation?component-code-value-quantity=8480-6$160", "change");
        (await server.Inner.SendAsync(HttpMethod.Delete, "Observation/change")).Status.ShouldBe(204);
        await server.Inner.ExpectAsync("Observation?component-code-value-quantity=8480-6$160", "");
    }

    // A file of a layout before lacks search values (of composites, of yes and no); they are made when it is opened.
    [Theory]
    [InlineData("user_version = 2")]
    [InlineData("user_version = 3")]
    [InlineData("user_version = 4")]
    // Another build of the library whose paths the values were found by.
    [InlineData("application_id = 1")]
    public async Task Start_OnAFileOfALayoutBefore_FindsWhatItHolds(string mark)
    {
        var file = Path.Combine(Directory.CreateTempSubdirectory("hfb-record-").FullName, "record.db");
        await using (var application = await RecordServer.StartAsync(new RecordOptions { DatabasePath = file }))
        {
            using var client = application.GetTestClient();
            using var body = new StringContent(Components("old", 107, 60), System.Text.Encoding.UTF8, "application/fhir+json");
            (await client.PutAsync(new Uri("/clinic/fhir/Observation/old", UriKind.Relative), body, TestContext.Current.CancellationToken)).EnsureSuccessStatusCode();
        }

        await using (var connection = new SqliteConnection($"Data Source={file};Pooling=False"))
        {
            await connection.OpenAsync(TestContext.Current.CancellationToken);
            await using var command = connection.CreateCommand();
            #pragma warning disable CA2100 // The mark is one of the test's own.
            command.CommandText = $"DELETE FROM token WHERE rid < 0; DELETE FROM amount WHERE rid < 0; PRAGMA {mark};";
#pragma warning restore CA2100
            (await command.ExecuteNonQueryAsync(TestContext.Current.CancellationToken)).ShouldBeGreaterThan(0);
        }

        await using (var application = await RecordServer.StartAsync(new RecordOptions { DatabasePath = file }))
        {
            using var client = application.GetTestClient();
            var found = await client.GetStringAsync(
                new Uri("/clinic/fhir/Observation?component-code-value-quantity=8462-4$60", UriKind.Relative), TestContext.Current.CancellationToken);
            found.ShouldContain("\"old\"");
        }

        Directory.Delete(Path.GetDirectoryName(file)!, recursive: true);
    }

    private static string Components(string id, int systolic, int diastolic) =>
        $$"""
        {"resourceType":"Observation","id":"{{id}}","status":"final","code":{"coding":[{"system":"http://loinc.org","code":"85354-9"}]},"subject":{"reference":"Patient/a"},
         "component":[
          {"code":{"coding":[{"system":"http://loinc.org","code":"8480-6"}]},"valueQuantity":{"value":{{systolic}},"unit":"mmHg"} },
          {"code":{"coding":[{"system":"http://loinc.org","code":"8462-4"}]},"valueQuantity":{"value":{{diastolic}},"unit":"mmHg"} }]}
        """;

    /// <summary>A record that holds what the searches look for.</summary>
    public sealed class Filled : IAsyncLifetime
    {
        public RecordServer Inner { get; } = new();

        public async ValueTask InitializeAsync()
        {
            await Inner.InitializeAsync();
            await Inner.PutAsync(
                """{"resourceType":"Patient","id":"a","name":[{"family":"One"}]}""",
                """{"resourceType":"Patient","id":"b","name":[{"family":"Two"}]}""",
                """{"resourceType":"Patient","id":"c","name":[{"family":"Two"}]}""",
                Potassium("k1", "a", "5.5"),
                Potassium("k2", "b", "4.9"),
                Components("bp", 107, 60).Replace("85354-9", "8480-6", StringComparison.Ordinal),
                """{"resourceType":"Observation","id":"hand","status":"final","code":{"coding":[{"code":"side"}]},"subject":{"reference":"Patient/a"},"valueCodeableConcept":{"coding":[{"code":"right"}]}}""",
                """{"resourceType":"DiagnosticReport","id":"dr1","status":"final","code":{"text":"x"},"result":[{"reference":"Observation/k1"},{"reference":"Observation/k2"}]}""",
                """
                {"resourceType":"Group","id":"g1","type":"person","actual":true,"characteristic":[
                  {"code":{"coding":[{"code":"gender"}]},"valueCodeableConcept":{"coding":[{"code":"mixed"}]},"exclude":false},
                  {"code":{"coding":[{"code":"age"}]},"valueCodeableConcept":{"coding":[{"code":"child"}]},"exclude":false}]}
                """,
                """{"resourceType":"Practitioner","id":"MyUserId"}""",
                """
                {"resourceType":"AuditEvent","id":"ae","type":{"code":"rest"},"recorded":"2026-01-01T00:00:00Z","agent":[{"who":{"reference":"Practitioner/MyUserId"},"requestor":true}],
                 "source":{"observer":{"display":"x"}},"entity":[{"what":{"reference":"Observation/k2"}}]}
                """);
        }

        public ValueTask DisposeAsync() => Inner.DisposeAsync();

        private static string Potassium(string id, string patient, string value) =>
            $$"""{"resourceType":"Observation","id":"{{id}}","status":"final","code":{"coding":[{"system":"http://loinc.org","code":"2823-3"}]},"subject":{"reference":"Patient/{{patient}}"},"valueQuantity":{"value":{{value}},"unit":"mmol/L","system":"http://unitsofmeasure.org","code":"mmol/L"} }""";
    }
}
