using System.Runtime.CompilerServices;
using HandFhirBridge.Delivery;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Hosting;

/// <summary>Asks the targets, with the sign-in that delivery uses, whether they would let the bridge work. Writes nothing.</summary>
internal static class TargetProbe
{
    // Reserved name, so that nobody carries it.
    private const string Nobody = "Patient?identifier=https%3A%2F%2Fhandfhirbridge.example%2Fidentifier%2Fprobe%7Cnobody";

    private const string Unreached = ". Check the target's address, its sign-in settings, and the network between.";

    /// <summary>One line for each answer, and whether it was a good one.</summary>
    public static async IAsyncEnumerable<(bool IsGood, string Line)> AskAsync(
        BridgeSettings settings, [EnumeratorCancellation] CancellationToken cancellation)
    {
        var chosen = settings.Target.BaseUrl;
        if (chosen is null)
        {
            yield return (true, "  default      embedded record: it starts with the service");
        }

        await using var services = new ServiceCollection()
            .AddTargets(delivery => DeliverySetup.Configure(delivery, settings, new Uri((chosen ?? "http://localhost").TrimEnd('/') + "/")))
            .BuildServiceProvider();
        foreach (var target in services.GetRequiredService<TargetRegistry>().All.Where(t => chosen is not null || t.Name != settings.Target.Name))
        {
            var metadata = await target.GetAsync("metadata", cancellation);
            yield return (metadata.Succeeded, $"  {target.Name,-12} capabilities: {(metadata.Succeeded ? Version(metadata) : metadata.ToString())}{(metadata.Status is null ? Unreached : "")}");
            if (metadata.Status is null)
            {
                continue;
            }

            var search = await target.GetAsync(Nobody, cancellation);
            yield return (search.Succeeded, $"  {target.Name,-12} searching patients: {search}{(search.Succeeded ? "" : ". Check the target's address, its sign-in settings and the permissions granted there.")}");
        }
    }

    private static string Version(TargetAnswer metadata) =>
        metadata.ResourceType == "CapabilityStatement" ? $"FHIR {TargetCapabilities.Of(metadata.Resource, default).FhirVersion ?? "of a version it does not name"}" : "no CapabilityStatement; ways of writing are then tried";
}
