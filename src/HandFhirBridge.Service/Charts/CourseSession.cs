using System.Collections.Immutable;

namespace HandFhirBridge.Service.Charts;

/// <summary>One session of a course.</summary>
/// <param name="Site">Clinic.</param>
/// <param name="SessionId">The client's id.</param>
/// <param name="Revision">Above 1 for a corrected session.</param>
/// <param name="StartedAt">When it was given, with the offset of the place.</param>
/// <param name="AgeInYears">Age on that day.</param>
/// <param name="Performer">Who gave it.</param>
/// <param name="ReportId">Id of its DiagnosticReport on the server.</param>
/// <param name="Protocol">What differed from the instrument's own set-up, in words; empty if nothing.</param>
public sealed record CourseSession(
    string Site,
    string SessionId,
    int Revision,
    DateTimeOffset StartedAt,
    int AgeInYears,
    string Performer,
    string ReportId,
    ImmutableArray<string> Protocol);
