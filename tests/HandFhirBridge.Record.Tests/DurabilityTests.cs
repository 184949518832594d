using Microsoft.AspNetCore.TestHost;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Record.Tests;

public sealed class DurabilityTests
{
    private const string Patient = """{"resourceType":"Patient","id":"p1","identifier":[{"system":"urn:m","value":"1"}]}""";

    // https://www.sqlite.org/pragma.html#pragma_synchronous: FULL (2) syncs before a commit returns; a second host sees what the first answered for.
    [Fact]
    public async Task Restart_OnTheSameFile_FindsWhatWasWritten()
    {
        var folder = Directory.CreateTempSubdirectory("hfb-record-").FullName;
        var options = new RecordOptions { DatabasePath = Path.Combine(folder, "deep", "record.db") };
        for (var start = 1; start <= 2; start++)
        {
            await using var application = await RecordServer.StartAsync(options);
            using var client = application.GetTestClient();
            using var body = new StringContent(Patient, System.Text.Encoding.UTF8, "application/fhir+json");
            using var answer = await client.PutAsync(new Uri("/clinic/fhir/Patient/p1", UriKind.Relative), body, TestContext.Current.CancellationToken);
            answer.Headers.ETag!.ToString().ShouldBe($"W/\"{start}\"");
        }

        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Start_WithoutAPath_KeepsAFileWhileItRuns()
    {
        await using var application = await RecordServer.StartAsync(new RecordOptions());
        using var client = application.GetTestClient();
        using var body = new StringContent(Patient, System.Text.Encoding.UTF8, "application/fhir+json");
        (await client.PutAsync(new Uri("/clinic/fhir/Patient/p1", UriKind.Relative), body, TestContext.Current.CancellationToken)).EnsureSuccessStatusCode();

        (await client.GetStringAsync(new Uri("/clinic/fhir/Patient?identifier=urn:m|1", UriKind.Relative), TestContext.Current.CancellationToken)).ShouldContain("\"p1\"");
    }

    [Fact]
    public async Task Start_OnAnotherDatabase_RefusesIt()
    {
        var file = Path.Combine(Directory.CreateTempSubdirectory("hfb-record-").FullName, "other.db");
        await using (var connection = new SqliteConnection($"Data Source={file};Pooling=False"))
        {
            await connection.OpenAsync(TestContext.Current.CancellationToken);
            await using var command = connection.CreateCommand();
            command.CommandText = "CREATE TABLE mine (x)";
            await command.ExecuteNonQueryAsync(TestContext.Current.CancellationToken);
        }

        var failure = await Should.ThrowAsync<InvalidDataException>(() => RecordServer.StartAsync(new RecordOptions { DatabasePath = file }));

        failure.Message.ShouldContain("Give it a new file");
        Directory.Delete(Path.GetDirectoryName(file)!, recursive: true);
    }
}
