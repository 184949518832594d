using System.Text.Json.Nodes;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.EndToEnd;

/// <summary>Every example session, taken by the running service through its pipeline, ledger and dispatcher into a FHIR server.</summary>
public abstract class ExampleDelivery : IAsyncLifetime
{
    private readonly DataFolder folder = new();
    private readonly List<DeliveredSession> sessions = [];
    private ServiceProcess? service;

    /// <summary>Why it cannot be tried here; null if it can.</summary>
    public virtual string? Missing => null;

    /// <summary>The sessions handed in, all of them delivered.</summary>
    public IReadOnlyList<DeliveredSession> Sessions => sessions;

    /// <summary>The service.</summary>
    internal ServiceProcess Service => service!;

    /// <summary>The server delivered to, asked by the test itself.</summary>
    public abstract HttpClient Fhir { get; }

    public virtual async ValueTask InitializeAsync()
    {
        if (Missing is not null)
        {
            return;
        }

        var cancellation = TestContext.Current.CancellationToken;
        service = await StartServiceAsync(folder.Path, cancellation);
        await Clinic.LoadPatientsAsync(Fhir, cancellation);
        foreach (var file in Clinic.ExampleSessions)
        {
            var document = await File.ReadAllTextAsync(file, cancellation);
            sessions.Add(new(await Clinic.SubmitAsync(Service.Api, document, cancellation), document));
        }

        foreach (var session in sessions)
        {
            await Clinic.DeliveredAsync(Service.Api, session.Key, cancellation);
        }
    }

    public virtual ValueTask DisposeAsync()
    {
        service?.Dispose();
        folder.Dispose();
        GC.SuppressFinalize(this);
        return ValueTask.CompletedTask;
    }

    internal abstract Task<ServiceProcess> StartServiceAsync(string dataDirectory, CancellationToken cancellation);
}
