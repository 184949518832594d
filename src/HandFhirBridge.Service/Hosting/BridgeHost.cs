using HandFhirBridge.Delivery;
using HandFhirBridge.Delivery.Dispatch;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Fhir.Extraction;
using HandFhirBridge.Fhir.Reading;
using HandFhirBridge.Fhir.Validation;
using HandFhirBridge.Service.Auditing;
using HandFhirBridge.Service.Charts;
using HandFhirBridge.Service.Charts.Smart;
using HandFhirBridge.Service.Http;
using HandFhirBridge.Service.Operations;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Pages;
using HandFhirBridge.Service.Pipeline;
using HandFhirBridge.Service.Reports;
using HandFhirBridge.Service.Security;
using HandFhirBridge.Service.Settings;
using Microsoft.AspNetCore.DataProtection;

namespace HandFhirBridge.Service.Hosting;

/// <summary>The running service: HTTP API, ledger, dispatcher and, where no target is set, the embedded record.</summary>
public sealed class BridgeHost : IAsyncDisposable
{
    private readonly WebApplication application;
    private readonly EmbeddedRecord? record;
    private readonly InstanceLock? instance;

    private BridgeHost(WebApplication application, EmbeddedRecord? record, InstanceLock? instance, Uri target)
    {
        this.application = application;
        this.record = record;
        this.instance = instance;
        Target = target;
    }

    /// <summary>FHIR base results go to; ends with a slash.</summary>
    public Uri Target { get; }

    /// <summary>What was put together.</summary>
    public IServiceProvider Services => application.Services;

    /// <summary>Addresses the API listens on.</summary>
    public IEnumerable<string> Addresses => application.Urls;

    /// <summary>Starts everything; the dispatcher begins with what the ledger holds.</summary>
    /// <param name="settings">Checked settings.</param>
    /// <param name="listen">False leaves the HTTP API on a free loopback port, for commands that only deliver.</param>
    /// <param name="cancellation">Gives up starting.</param>
    /// <exception cref="Cli.CommandFailedException">Another process delivers from the same data directory, and the ledger is not a shared one.</exception>
    public static async Task<BridgeHost> StartAsync(BridgeSettings settings, bool listen, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(settings);
        var instance = settings.Ledger.IsShared ? null : InstanceLock.Take(settings.DataDirectory);
        EmbeddedRecord? record = null;
        var trail = new AuditTrail(settings.AuditDirectory, TimeProvider.System);
        try
        {
            record = settings.Target.BaseUrl is null ? await EmbeddedRecord.StartAsync(settings, trail, cancellation) : null;
            var target = record?.BaseUrl ?? new Uri(settings.Target.BaseUrl!.TrimEnd('/') + "/");
            var application = Build(settings, target, trail, listen ? settings.Listen : "http://127.0.0.1:0");
            await application.StartAsync(cancellation);
            return new(application, record, instance, target);
        }
        catch
        {
            if (record is not null)
            {
                await record.DisposeAsync();
            }

            instance?.Dispose();
            throw;
        }
    }

    /// <summary>Runs until the process is told to stop.</summary>
    public Task WaitAsync(CancellationToken cancellation) => application.WaitForShutdownAsync(cancellation);

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await application.StopAsync();
        await application.DisposeAsync();
        if (record is not null)
        {
            await record.DisposeAsync();
        }

        instance?.Dispose();
    }

    private static WebApplication Build(BridgeSettings settings, Uri target, AuditTrail trail, string listen)
    {
        var builder = QuietHost.Builder();
        Telemetry.AddLogs(builder.Logging, settings.Telemetry);
        Telemetry.AddExport(builder, settings.Telemetry);
        builder.WebHost.UseUrls(listen);
        builder.WebHost.UseKestrelHttpsConfiguration();
        AddParts(builder.Services, settings, trail);
        AddTarget(builder.Services, settings, target);
        builder.Services.AddSecurity(settings);
        builder.Services.AddSmart(settings);
        builder.Services.AddOpenApi();
        builder.Services.ConfigureHttpJsonOptions(json => JsonText.Configure(json.SerializerOptions));
        var application = builder.Build();
        application.UseExceptionHandler(problem => problem.Run(UnexpectedFailure.AnswerAsync));
        application.UseStatusCodePages(BareStatus.AnswerAsync);
        application.UseKeyOfForm();
        application.UseAuthentication();
        application.UseAuthorization();
        application.MapOpenApi().AllowAnonymous();
        application.MapSessions();
        application.MapWithdrawals();
        application.MapForms();
        application.MapLedger();
        application.MapLedgerActions();
        application.MapReference();
        application.MapPatients();
        application.MapCourses();
        application.MapChart();
        application.MapHealth();
        application.MapKeySet();
        application.MapPages();
        application.MapReports();
        application.MapOutcomes();
        return application;
    }

    private static void AddParts(IServiceCollection services, BridgeSettings settings, AuditTrail trail)
    {
        var parts = new BridgeParts(settings, TimeProvider.System);
        services.AddSingleton(settings);
        services.AddSingleton(TimeProvider.System);
        services.AddSingleton(parts);
        services.AddSingleton(parts.Instruments);
        services.AddSingleton(trail);
        services.AddSingleton(new SiteRegister(settings));
        services.AddSingleton(_ => SessionValidator.Shared);
        services.AddSingleton(_ => parts.Pipeline());
        services.AddSingleton(provider => new SessionExtraction(provider.GetRequiredService<SessionValidator>(), parts.Reader));
        services.AddSingleton(parts.Forms);
        services.AddSingleton<Withdrawals>();
        services.AddSingleton<LedgerDesk>();
        services.AddSingleton(parts.Reports);
        services.AddSingleton(new CourseBuilder(parts.Instruments, parts.MeasurementErrors));
        services.AddSingleton<Readiness>();
        services.AddHostedService(provider => provider.GetRequiredService<Readiness>());
    }

    private static void AddTarget(IServiceCollection services, BridgeSettings settings, Uri target)
    {
        services.AddDataProtection()
            .SetApplicationName(LedgerAccess.ProtectionName)
            .PersistKeysToFileSystem(LedgerAccess.KeysOf(settings));
        services.AddDelivery(delivery =>
        {
            DeliverySetup.Configure(delivery, settings, target);
            if (settings.Target.BaseUrl is null)
            {
                delivery.Targets[0].SignIn = RecordKey.SignIn(settings); // the record runs by now, and has made it
            }
        });
        services.AddSingleton<SessionResources>();
        services.AddSingleton<EarlierSessions>();
        services.AddSingleton<RecordedReports>();
        services.AddSingleton<CourseReader>();
    }
}
