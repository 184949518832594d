using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Ledger.Sqlite;
using HandFhirBridge.Service.Settings;
using Microsoft.AspNetCore.DataProtection;

namespace HandFhirBridge.Service.Hosting;

/// <summary>The ledger of a data directory, its payloads sealed with keys that lie beside it in <c>keys/</c>.</summary>
public static class LedgerFile
{
    /// <summary>Name under which the keys are used; another name could not unseal.</summary>
    public const string ProtectionName = "HandFhirBridge";

    /// <summary>Folder of the keys. Whoever loses it loses the payloads.</summary>
    public static DirectoryInfo KeysOf(BridgeSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return new(Path.Combine(settings.DataDirectory, "keys"));
    }

    /// <summary>Opens the ledger, for commands that accept or look and leave the sending to another process; made if there is none.</summary>
    public static SqliteLedger Open(BridgeSettings settings, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(settings);
        Directory.CreateDirectory(settings.DataDirectory);
        var provider = DataProtectionProvider.Create(KeysOf(settings), protection => protection.SetApplicationName(ProtectionName));
        return new(settings.LedgerPath, clock, new DataProtectionPayloadProtector(provider));
    }
}
