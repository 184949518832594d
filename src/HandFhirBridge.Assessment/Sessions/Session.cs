using System.Collections.Immutable;

namespace HandFhirBridge.Assessment.Sessions;

/// <summary>One sitting of one patient with one instrument, as it happened. Only a reader that has checked a document makes one.</summary>
/// <param name="SessionId">The client's id, unique per site; letters, digits, dot and hyphen, at most 64 characters.</param>
/// <param name="Revision">1 for the first version; a correction is revision n+1 of the same session.</param>
/// <param name="Site">Id of the clinic as configured; same alphabet as <paramref name="SessionId"/>.</param>
/// <param name="Instrument">Instrument given.</param>
/// <param name="Patient">Whose chart.</param>
/// <param name="Performer">Who gave it.</param>
/// <param name="Encounter">Identifier of the encounter; null if not known.</param>
/// <param name="Order">Identifier of the order; null if there was none.</param>
/// <param name="StartedAt">Begin, with the offset of the place.</param>
/// <param name="EndedAt">End; not before the begin.</param>
/// <param name="Dominance">Handedness.</param>
/// <param name="SexForNorm">Which norm applies.</param>
/// <param name="Setup">How the table was laid.</param>
/// <param name="Precautions">Precautions asked.</param>
/// <param name="Trials">All attempts in the order in which they ran.</param>
/// <param name="Comment">The therapist's remarks on the whole; null if none.</param>
/// <param name="Conclusion">What the performer concludes and signs; null if nobody did, and rules draft the report's conclusion.</param>
public sealed record Session(
    string SessionId,
    int Revision,
    string Site,
    InstrumentReference Instrument,
    PatientIdentity Patient,
    Performer Performer,
    BusinessIdentifier? Encounter,
    BusinessIdentifier? Order,
    DateTimeOffset StartedAt,
    DateTimeOffset EndedAt,
    Dominance Dominance,
    SexForNorm SexForNorm,
    Setup Setup,
    ImmutableArray<PrecautionAsked> Precautions,
    ImmutableArray<Trial> Trials,
    string? Comment,
    SignedConclusion? Conclusion)
{
    /// <summary>Whole years completed on the session's day at the place of the session.</summary>
    public int AgeInYears => AgeOn(Patient.BirthDate, DateOnly.FromDateTime(StartedAt.DateTime));

    /// <summary>Key under which ledger and identifiers know the session: <c>site/sessionId</c>.</summary>
    public string Key => $"{Site}/{SessionId}";

    /// <summary>Whole years completed on <paramref name="day"/> by someone born on <paramref name="birth"/>; someone born on 29 February completes a year on 1 March of common years.</summary>
    public static int AgeOn(DateOnly birth, DateOnly day)
    {
        var years = day.Year - birth.Year;
        // Someone born on 29 February completes a year on 1 March of common years (AddYears would say 28 February).
        return (day.Month, day.Day).CompareTo((birth.Month, birth.Day)) < 0 ? years - 1 : years;
    }
}
