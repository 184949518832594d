using HandFhirBridge.Delivery.Dispatch;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Ledger.Sql;
using HandFhirBridge.Service.Settings;
using Microsoft.AspNetCore.DataProtection;

namespace HandFhirBridge.Service.Hosting;

/// <summary>The ledger as it is set, its payloads sealed.</summary>
public static class LedgerAccess
{
    /// <summary>Name under which the keys are used; another name could not unseal.</summary>
    public const string ProtectionName = "HandFhirBridge";

    /// <summary>Folder of the keys. Whoever loses it loses the payloads.</summary>
    public static DirectoryInfo KeysOf(BridgeSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return new(settings.Ledger.KeysDirectory ?? Path.Combine(settings.DataDirectory, "keys"));
    }

    /// <summary>Says which ledger it is.</summary>
    public static void Configure(DeliveryOptions delivery, BridgeSettings settings)
    {
        ArgumentNullException.ThrowIfNull(delivery);
        ArgumentNullException.ThrowIfNull(settings);
        delivery.LedgerPath = settings.LedgerPath;
        delivery.LedgerConnection = settings.Ledger.ConnectionString;
        delivery.LeaseDuration = TimeSpan.FromMinutes(settings.Ledger.LeaseMinutes);
        // Where others deliver too, what another instance is sending must not be taken from it.
        delivery.SingleInstance = !settings.Ledger.IsShared;
        delivery.SealPayloads = true;
    }

    /// <summary>Opens the ledger, for commands that accept or look and leave the sending to another process; made if there is none.</summary>
    public static SqlLedger Open(BridgeSettings settings, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(settings);
        Directory.CreateDirectory(settings.DataDirectory);
        var provider = DataProtectionProvider.Create(KeysOf(settings), protection => protection.SetApplicationName(ProtectionName));
        var delivery = new DeliveryOptions();
        Configure(delivery, settings);
        return LedgerStores.Open(delivery, clock, new DataProtectionPayloadProtector(provider));
    }
}
