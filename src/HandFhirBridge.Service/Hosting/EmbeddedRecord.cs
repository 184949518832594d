using HandFhirBridge.Record;
using HandFhirBridge.Service.Auditing;
using HandFhirBridge.Service.Http;
using HandFhirBridge.Service.Security;
using HandFhirBridge.Service.Settings;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;

namespace HandFhirBridge.Service.Hosting;

/// <summary>The embedded FHIR record on its own loopback port. The bridge speaks to it over HTTP, as to any server.</summary>
public sealed class EmbeddedRecord : IAsyncDisposable
{
    private readonly WebApplication application;

    private EmbeddedRecord(WebApplication application, Uri baseUrl)
    {
        this.application = application;
        BaseUrl = baseUrl;
    }

    /// <summary>FHIR base of the running record.</summary>
    public Uri BaseUrl { get; }

    /// <summary>Starts the record on the configured port.</summary>
    /// <param name="settings">Checked settings; those of sign-in hold for the record as well.</param>
    /// <param name="trail">Keeps who read or wrote what.</param>
    /// <param name="cancellation">Gives up starting.</param>
    /// <exception cref="IOException">The port is taken.</exception>
    public static async Task<EmbeddedRecord> StartAsync(BridgeSettings settings, AuditTrail trail, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(settings);
        Directory.CreateDirectory(settings.DataDirectory);
        var builder = QuietHost.Builder();
        Telemetry.AddLogs(builder.Logging, settings.Telemetry);
        builder.WebHost.UseUrls($"http://127.0.0.1:{settings.Target.EmbeddedPort}");
        builder.Services.AddFhirRecord(new RecordOptions { DatabasePath = settings.RecordPath, Security = RecordGuard.Statement(settings), Profiles = new SessionProfiles() });
        // Nothing of the record is sealed, but the framework makes keys with every sign-in: where the service has its own.
        builder.Services.AddDataProtection().SetApplicationName(LedgerAccess.ProtectionName).PersistKeysToFileSystem(LedgerAccess.KeysOf(settings));
        builder.Services.AddSecurity(settings, RecordGuard.IsOpen(settings)).AddSingleton(RecordKey.Entry(settings)).AddSingleton(trail);
        var application = builder.Build();
        application.UseStatusCodePages(BareStatus.AnswerAsync);
        application.UseAuthentication();
        application.UseAuthorization();
        var guarded = application.MapGroup("").AddEndpointFilter<RecordAudit>();
        guarded.Guard();
        guarded.MapFhirRecord("/fhir");
        await application.StartAsync(cancellation);
        var address = application.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();
        return new(application, new Uri(address + "/fhir/"));
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await application.StopAsync();
        await application.DisposeAsync();
    }
}
