using HandFhirBridge.Service.Auditing;
using HandFhirBridge.Service.Settings;
using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Service.Cli;

/// <summary>Leaves lines in the audit trail for commands that give rows of single patients: the machine's account is who asked.</summary>
internal static class CommandAudit
{
    /// <summary>An act of a command.</summary>
    /// <param name="command">Its words, without files and values.</param>
    public static AuditedAct Act(string command) => new("operation", StatusCodes.Status200OK, Environment.UserName, null, command, []);

    /// <summary>Writes it down, before anything is given.</summary>
    /// <param name="settings">Say where the trail lies.</param>
    /// <param name="act">What is done.</param>
    /// <param name="cancellation">Gives up.</param>
    public static async Task WriteAsync(BridgeSettings settings, AuditedAct act, CancellationToken cancellation)
    {
        using var trail = new AuditTrail(settings.AuditDirectory, TimeProvider.System);
        await trail.WriteAsync(act, cancellation);
    }

    /// <summary>Writes down how many rows were given of something that was written down before it began.</summary>
    /// <param name="settings">Say where the trail lies.</param>
    /// <param name="act">The act as it was begun.</param>
    /// <param name="table">What the rows are of.</param>
    /// <param name="rows">How many.</param>
    public static Task WriteGivenAsync(BridgeSettings settings, AuditedAct act, string table, long rows) =>
        WriteAsync(settings, act with { Rows = act.Rows.SetItem(table, rows) }, CancellationToken.None);
}
