using System.Globalization;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Identifier values of the resources of one session.</summary>
/// <param name="Site">Site id.</param>
/// <param name="SessionId">The client's id.</param>
public readonly record struct SessionKeys(string Site, string SessionId)
{
    /// <summary>Report, set-up response, handedness, session.</summary>
    public string Session => $"{Site}/{SessionId}";

    /// <summary>Keys of <paramref name="session"/>.</summary>
    public static SessionKeys Of(Session session)
    {
        ArgumentNullException.ThrowIfNull(session);
        return new(session.Site, session.SessionId);
    }

    /// <summary>Panel of a hand.</summary>
    public string Panel(Hand hand) => $"{Session}/{WireName.Of(hand)}";

    /// <summary>Total of a hand.</summary>
    public string Total(string totalId, Hand hand) => $"{Session}/{totalId}/{WireName.Of(hand)}";

    /// <summary>Counted trial.</summary>
    public string Trial(string task, Hand hand) => $"{Session}/{task}/{WireName.Of(hand)}";

    /// <summary>Attempt that does not count.</summary>
    public string Attempt(ScoredTrial attempt)
    {
        ArgumentNullException.ThrowIfNull(attempt);
        return string.Create(CultureInfo.InvariantCulture, $"{Trial(attempt.Trial.Task, attempt.Trial.Hand)}/{attempt.Attempt}");
    }

    /// <summary>Name from which the id of the Provenance of a revision is derived.</summary>
    public string Provenance(int revision) => string.Create(CultureInfo.InvariantCulture, $"{Session}/{revision}");

    /// <summary>Kit, known by its serial number, else by its name.</summary>
    public string Kit(Kit kit)
    {
        ArgumentNullException.ThrowIfNull(kit);
        return $"{Site}/{kit.SerialNumber ?? kit.Name}";
    }
}
