using System.Net.Http.Headers;
using HandFhirBridge.Record;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace HandFhirBridge.Benchmarks;

/// <summary>A FHIR server to deliver to: the embedded record on a loopback port, with the charts of the example patients.</summary>
internal sealed class RecordHost : IAsyncDisposable
{
    private readonly WebApplication application;
    private readonly DirectoryInfo folder;

    private RecordHost(WebApplication application, DirectoryInfo folder, Uri baseUrl)
    {
        this.application = application;
        this.folder = folder;
        BaseUrl = baseUrl;
    }

    /// <summary>FHIR base, with a slash at the end.</summary>
    internal Uri BaseUrl { get; }

    /// <summary>Folder for what is known of it.</summary>
    internal string Knowledge => Path.Combine(folder.FullName, "targets");

    internal static async Task<RecordHost> StartAsync()
    {
        var folder = Directory.CreateTempSubdirectory("hfb-record-");
        var builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { Args = ["--hostBuilder:reloadConfigOnChange=false"] });
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        builder.Services.AddFhirRecord(new RecordOptions { DatabasePath = Path.Combine(folder.FullName, "record.db") });
        var application = builder.Build();
        application.MapFhirRecord("/fhir");
        await application.StartAsync();
        var address = application.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();
        var host = new RecordHost(application, folder, new Uri(address + "/fhir/"));
        await host.PostAsync(await File.ReadAllBytesAsync(Path.Combine(AppContext.BaseDirectory, "patients.json")));
        return host;
    }

    /// <summary>What a bare client does: posts bytes and asks for success.</summary>
    internal async Task PostAsync(ReadOnlyMemory<byte> bundle)
    {
        using var body = new ReadOnlyMemoryContent(bundle);
        body.Headers.ContentType = new MediaTypeHeaderValue("application/fhir+json");
        using var answer = await Client.PostAsync(BaseUrl, body);
        answer.EnsureSuccessStatusCode();
        await answer.Content.CopyToAsync(Stream.Null);
    }

    /// <summary>The same for a read.</summary>
    internal async Task GetAsync(string address)
    {
        using var answer = await Client.GetAsync(new Uri(BaseUrl, address));
        answer.EnsureSuccessStatusCode();
        await answer.Content.CopyToAsync(Stream.Null);
    }

    /// <summary>What a search answers.</summary>
    internal async Task<byte[]> AskAsync(string query)
    {
        using var answer = await Client.GetAsync(new Uri(BaseUrl, query));
        answer.EnsureSuccessStatusCode();
        return await answer.Content.ReadAsByteArrayAsync();
    }

    private static HttpClient Client { get; } = new(new SocketsHttpHandler());

    public async ValueTask DisposeAsync()
    {
        await application.StopAsync();
        await application.DisposeAsync();
        folder.Delete(recursive: true);
    }
}
