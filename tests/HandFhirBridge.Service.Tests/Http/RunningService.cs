using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Http;

/// <summary>One service with the embedded record and the example patients, for the tests of one class.</summary>
public sealed class RunningService : IAsyncLifetime
{
    private readonly DataFolder folder = new();

    internal ServiceProcess Process { get; private set; } = null!;

    public HttpClient Api => Process.Api;

    /// <summary>Where the service keeps its data.</summary>
    public string DataDirectory => folder.Path;

    public async ValueTask InitializeAsync()
    {
        Process = await ServiceProcess.StartAsync(folder.Path, TestContext.Current.CancellationToken);
        await Clinic.LoadPatientsAsync(Process.Record, TestContext.Current.CancellationToken);
    }

    public ValueTask DisposeAsync()
    {
        Process?.Dispose();
        folder.Dispose();
        return ValueTask.CompletedTask;
    }
}
