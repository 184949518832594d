using HandFhirBridge.Service.Auditing;
using HandFhirBridge.Service.Settings;
using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Service.Cli;

/// <summary>Leaves a line in the audit trail for a command that shows rows of single patients: the machine's account is who asked.</summary>
internal static class CommandAudit
{
    /// <summary>Writes it down, before anything is shown.</summary>
    /// <param name="settings">Say where the trail lies.</param>
    /// <param name="command">The command, without what was asked.</param>
    /// <param name="cancellation">Gives up.</param>
    public static async Task WriteAsync(BridgeSettings settings, string command, CancellationToken cancellation)
    {
        using var trail = new AuditTrail(settings.AuditDirectory, TimeProvider.System);
        await trail.WriteAsync(new("operation", StatusCodes.Status200OK, Environment.UserName, null, command, []), cancellation);
    }
}
