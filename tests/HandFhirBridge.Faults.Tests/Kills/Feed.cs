using System.Globalization;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;
using HandFhirBridge.Faults.Worker;

namespace HandFhirBridge.Faults.Tests.Kills;

/// <summary>Sessions of a campaign, written when they are needed. Every fifth is a correction of the one before it.</summary>
internal sealed class Feed(string folder)
{
    private readonly List<AcceptedSession> sessions = [];

    public string Folder => folder;

    public int Count => sessions.Count;

    public AcceptedSession this[int number] => sessions[number];

    public void FillTo(int count)
    {
        while (sessions.Count < count)
        {
            var session = Make(sessions.Count);
            FedSession.Of(session).Write(folder, sessions.Count);
            sessions.Add(session);
        }
    }

    private static AcceptedSession Make(int number)
    {
        var corrects = number % 5 == 4;
        var subject = corrects ? number - 1 : number;
        var (identifier, name, birthDate, _) = Charts.Of(subject);
        // No two neighbours have the same times, so that a value in the wrong place shows.
        return MappedSessions.Session(
            string.Create(CultureInfo.InvariantCulture, $"S-{subject:00000}"), corrects ? 2 : 1, identifier, Charts.System, name, birthDate,
            fastest: 3 + (number % 53));
    }
}
