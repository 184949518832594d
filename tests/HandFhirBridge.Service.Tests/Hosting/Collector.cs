using System.Collections.Concurrent;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace HandFhirBridge.Service.Tests.Hosting;

/// <summary>
/// Takes what an exporter sends: OTLP/HTTP, POST to /v1/traces and /v1/metrics
/// (https://opentelemetry.io/docs/specs/otlp/#otlphttp-request). Texts stand in the binary Protobuf as they are, in UTF-8.
/// </summary>
internal sealed class Collector : IAsyncDisposable
{
    private readonly WebApplication application;
    private readonly ConcurrentQueue<(string Path, string Body)> taken = new();

    private Collector()
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        application = builder.Build();
        application.MapPost("/v1/{signal}", TakeAsync);
    }

    public string Address => application.Urls.First();

    public static async Task<Collector> StartAsync()
    {
        var collector = new Collector();
        await collector.application.StartAsync();
        return collector;
    }

    /// <summary>Everything that came for a signal so far.</summary>
    public string Of(string signal) => string.Concat(taken.Where(t => t.Path == $"/v1/{signal}").Select(t => t.Body));

    /// <summary>Waits until a text has come.</summary>
    public async Task UntilAsync(string signal, string text)
    {
        while (!Of(signal).Contains(text, StringComparison.Ordinal))
        {
            await Task.Delay(50, TestContext.Current.CancellationToken);
        }
    }

    public ValueTask DisposeAsync() => application.DisposeAsync();

    private async Task<IResult> TakeAsync(HttpRequest request)
    {
        using var body = new MemoryStream();
        await request.Body.CopyToAsync(body);
        taken.Enqueue((request.Path.Value!, Encoding.UTF8.GetString(body.ToArray())));
        return Results.Bytes([], "application/x-protobuf");
    }
}
