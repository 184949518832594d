using System.Text.Json.Nodes;
using HandFhirBridge.Record;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace HandFhirBridge.Faults.Tests.Servers;

/// <summary>The embedded FHIR record behind a layer that misbehaves at <c>/faulty</c>; <c>/fhir</c> shows what it really holds.</summary>
internal sealed class FaultyServer : IAsyncDisposable
{
    private readonly WebApplication application;
    private readonly Faults faults;

    private FaultyServer(WebApplication application, Faults faults)
    {
        this.application = application;
        this.faults = faults;
        var address = application.Urls.First();
        Target = new(address + "/faulty");
        Truth = new(new SocketsHttpHandler()) { BaseAddress = new(address + "/fhir/") };
    }

    /// <summary>Where the bridge delivers to.</summary>
    public Uri Target { get; }

    /// <summary>Reads what is stored, past all faults.</summary>
    public HttpClient Truth { get; }

    /// <summary>Requests so far.</summary>
    public int Requests => faults.Requests;

    /// <summary>Requests that met a fault.</summary>
    public int Faults => faults.Count;

    /// <summary>Writes that were ended after their client had gone.</summary>
    public int Orphans => faults.Orphans;

    public static async Task<FaultyServer> StartAsync(ServerKind kind, int seed, CancellationToken cancellation)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        builder.Services.AddFhirRecord(new RecordOptions());
        var application = builder.Build();
        var faults = new Faults(kind, new(seed));
        application.Use(faults.PassAsync);
        application.UseRouting();
        application.MapFhirRecord("/fhir");
        await application.StartAsync(cancellation);
        faults.Inner = new(new SocketsHttpHandler()) { BaseAddress = new(application.Urls.First() + "/fhir/") };
        return new(application, faults);
    }

    /// <summary>All resources of a type, page by page.</summary>
    public async Task<List<JsonObject>> ReadAllAsync(string type, CancellationToken cancellation)
    {
        var found = new List<JsonObject>();
        for (var next = new Uri($"{type}?_count=500", UriKind.Relative); next is not null;)
        {
            var page = JsonNode.Parse(await Truth.GetStringAsync(next, cancellation))!;
            found.AddRange((page["entry"]?.AsArray() ?? []).Select(e => e!["resource"]!.AsObject()));
            next = page["link"]!.AsArray().Where(l => (string?)l!["relation"] == "next").Select(l => new Uri((string)l!["url"]!)).SingleOrDefault();
        }

        return found;
    }

    public async ValueTask DisposeAsync()
    {
        // What is under way for clients that are gone must not fail the next campaign.
        await application.StopAsync();
        await application.DisposeAsync();
        Truth.Dispose();
        faults.Inner.Dispose();
    }
}
