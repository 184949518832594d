using HandFhirBridge.Delivery.Dispatch;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Hosting;

/// <summary>What delivery needs to know of the settings.</summary>
internal static class DeliverySetup
{
    /// <summary>Ledger and targets.</summary>
    /// <param name="delivery">Is filled in.</param>
    /// <param name="settings">Checked settings.</param>
    /// <param name="target">FHIR base of the default target.</param>
    public static void Configure(DeliveryOptions delivery, BridgeSettings settings, Uri target)
    {
        LedgerAccess.Configure(delivery, settings);
        delivery.TargetKnowledgePath = settings.TargetsDirectory;
        delivery.Concurrency = Math.Min(64, settings.Targets.Append(settings.Target).Sum(t => t.Concurrency));
        delivery.Targets.Add(Options(settings.Target, target));
        foreach (var further in settings.Targets)
        {
            delivery.Targets.Add(Options(further, new Uri(further.BaseUrl!.TrimEnd('/') + "/")));
        }
    }

    private static TargetOptions Options(TargetSettings settings, Uri target) => new()
    {
        Name = settings.Name,
        BaseUrl = target,
        Concurrency = settings.Concurrency,
        SessionsPerMinute = settings.SessionsPerMinute,
        Timeout = TimeSpan.FromSeconds(settings.TimeoutSeconds),
        SignIn = settings.SignIn,
        OnDifference = settings.OnDifference,
        ProposePatients = settings.ProposePatients,
        CreatePatients = settings.CreatePatients,
        BestRung = settings.BestRung,
        DocumentType = settings.DocumentType,
    };
}
