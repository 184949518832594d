using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace HandFhirBridge.Record.Tests;

/// <summary>A record of its own on a fresh database, spoken to over HTTP.</summary>
public sealed class RecordServer : IAsyncLifetime
{
    private readonly string folder = Directory.CreateTempSubdirectory("hfb-record-").FullName;
    private WebApplication application = null!;

    public HttpClient Client { get; private set; } = null!;

    public string DatabasePath => Path.Combine(folder, "record.db");

    public static string Example(string name) => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Data", name));

    /// <summary>Limits, before it is started.</summary>
    public Func<string, RecordOptions> Options { get; init; } = path => new RecordOptions { DatabasePath = path, MaxBodyBytes = 200_000 };

    /// <summary>Clock, before it is started.</summary>
    public TimeProvider Clock { get; init; } = TimeProvider.System;

    public async ValueTask InitializeAsync()
    {
        application = await StartAsync(Options(DatabasePath), Clock);
        Client = application.GetTestClient();
        Client.BaseAddress = new Uri(Client.BaseAddress!, "/clinic/fhir/");
    }

    public static async Task<WebApplication> StartAsync(RecordOptions options, TimeProvider? clock = null)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.WebHost.UseTestServer();
        builder.Logging.ClearProviders();
        builder.Services.AddSingleton(clock ?? TimeProvider.System);
        builder.Services.AddFhirRecord(options);
        var application = builder.Build();
        application.MapFhirRecord("/clinic/fhir");
        await application.StartAsync();
        return application;
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await application.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }

    public async Task<Answer> SendAsync(HttpMethod method, string url, string? body = null, params (string Name, string Value)[] headers)
    {
        using var request = new HttpRequestMessage(method, url);
        if (body is not null)
        {
            var type = headers.FirstOrDefault(h => h.Name == "Content-Type").Value ?? "application/fhir+json";
            request.Content = new StringContent(body, Encoding.UTF8);
            request.Content.Headers.ContentType = MediaTypeHeaderValue.Parse(type);
        }

        foreach (var (name, value) in headers.Where(h => h.Name != "Content-Type"))
        {
            request.Headers.TryAddWithoutValidation(name, value);
        }

        using var answer = await Client.SendAsync(request, TestContext.Current.CancellationToken);
        var text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        return new((int)answer.StatusCode, text, answer.Headers.ETag?.ToString(), answer.Headers.Location?.ToString(), answer);
    }

    public Task<Answer> GetAsync(string url) => SendAsync(HttpMethod.Get, url);

    /// <summary>Stores resources under their own ids.</summary>
    public async Task PutAsync(params IEnumerable<string> resources)
    {
        foreach (var resource in resources)
        {
            var node = JsonNode.Parse(resource)!;
            var answer = await SendAsync(HttpMethod.Put, $"{node["resourceType"]}/{node["id"]}", resource);
            answer.Status.ShouldBe(201, answer.Text);
        }
    }

    /// <summary>Every match of a search gives its id; no other does.</summary>
    public async Task ExpectAsync(string query, string ids)
    {
        var answer = await GetAsync(query);
        answer.Status.ShouldBe(200, answer.Text);
        string.Join(' ', answer.Ids.Order(StringComparer.Ordinal)).ShouldBe(ids, query);
    }

    public sealed record Answer(int Status, string Text, string? ETag, string? Location, HttpResponseMessage Message)
    {
        public JsonNode Json => JsonNode.Parse(Text)!;

        public IEnumerable<string> Ids => (Json["entry"]?.AsArray() ?? []).Select(e => (string)e!["resource"]!["id"]!);

        /// <summary>Statuses of a bundle's entries, the number alone.</summary>
        public IEnumerable<string> Statuses => Json["entry"]!.AsArray().Select(e => ((string)e!["response"]!["status"]!)[..3]);

        public string? Link(string relation) => Json["link"]!.AsArray().Where(l => (string)l!["relation"]! == relation).Select(l => (string)l!["url"]!).SingleOrDefault();

        public IEnumerable<string> Expressions => Json["issue"]!.AsArray().SelectMany(i => i!["expression"]?.AsArray() ?? []).Select(e => (string)e!);
    }
}
