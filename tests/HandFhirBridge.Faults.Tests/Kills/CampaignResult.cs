using System.Globalization;
using HandFhirBridge.Faults.Tests.Servers;

namespace HandFhirBridge.Faults.Tests.Kills;

/// <summary>What came of a campaign.</summary>
/// <param name="Kind">The server.</param>
/// <param name="Kills">Processes killed.</param>
/// <param name="Faults">Requests that met a fault of the server.</param>
/// <param name="Orphans">Writes the server ended after their client was dead.</param>
/// <param name="Waiting">Sessions left for a person.</param>
/// <param name="Verdict">The server against what was accepted.</param>
/// <param name="Time">How long it took.</param>
internal sealed record CampaignResult(ServerKind Kind, int Kills, int Faults, int Orphans, int Waiting, Verdict Verdict, TimeSpan Time)
{
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"{Kind}: {Kills} kills, {Faults} faults, {Orphans} writes ended for the dead; {Verdict}; {Waiting} left for a person; {Time.TotalSeconds:0} s");
}
