using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.Logging;

namespace HandFhirBridge.Record.Tests;

/// <summary>A record of its own on a fresh database, spoken to over HTTP.</summary>
public sealed class RecordServer : IAsyncLifetime
{
    private readonly string folder = Directory.CreateTempSubdirectory("hfb-record-").FullName;
    private WebApplication application = null!;

    public HttpClient Client { get; private set; } = null!;

    public static string Example(string name) => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Data", name));

    public async ValueTask InitializeAsync()
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.WebHost.UseTestServer();
        builder.Logging.ClearProviders();
        builder.Services.AddFhirRecord(new RecordOptions { DatabasePath = Path.Combine(folder, "record.db"), MaxBodyBytes = 200_000 });
        application = builder.Build();
        application.MapFhirRecord("/fhir");
        await application.StartAsync();
        Client = application.GetTestClient();
        Client.BaseAddress = new Uri(Client.BaseAddress!, "/fhir/");
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await application.DisposeAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
    }

    public async Task<Answer> SendAsync(HttpMethod method, string url, string? body = null, params (string Name, string Value)[] headers)
    {
        using var request = new HttpRequestMessage(method, url);
        if (body is not null)
        {
            request.Content = new StringContent(body, Encoding.UTF8);
            request.Content.Headers.ContentType = new MediaTypeHeaderValue("application/fhir+json");
        }

        foreach (var (name, value) in headers)
        {
            request.Headers.TryAddWithoutValidation(name, value);
        }

        using var answer = await Client.SendAsync(request, TestContext.Current.CancellationToken);
        var text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        return new((int)answer.StatusCode, text, answer.Headers.ETag?.ToString(), answer.Headers.Location?.ToString());
    }

    public Task<Answer> GetAsync(string url) => SendAsync(HttpMethod.Get, url);

    public sealed record Answer(int Status, string Text, string? ETag, string? Location)
    {
        public JsonNode Json => JsonNode.Parse(Text)!;

        public IEnumerable<string> Ids => (Json["entry"]?.AsArray() ?? []).Select(e => (string)e!["resource"]!["id"]!);
    }
}
