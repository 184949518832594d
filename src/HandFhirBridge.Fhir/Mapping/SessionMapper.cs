using System.Security.Cryptography;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping.Narratives;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Maps scored sessions to FHIR R4. The same session, document, options and time give the same bytes.</summary>
/// <param name="options">What the site decided.</param>
public sealed class SessionMapper(MappingOptions options)
{
    /// <summary>A transaction of PUTs with all resources of the session, each but the Provenance's targets after what it refers to.</summary>
    /// <param name="session">A session that a reader has checked, with its scores.</param>
    /// <param name="document">The session document as it was received; only its SHA-256 leaves.</param>
    /// <param name="issued">When the report is made, with offset.</param>
    /// <exception cref="ArgumentException">The options have no definition of the session's instrument.</exception>
    public Bundle Map(ScoredSession session, ReadOnlyMemory<byte> document, DateTimeOffset issued)
    {
        var context = Context(session, issued);
        List<Resource> resources = [.. Resources(context)];
        resources.Add(ProvenanceMapper.Map(context, resources, Convert.ToHexStringLower(SHA256.HashData(document.Span))));
        return BundleMapper.Map(resources);
    }

    /// <summary>What rules conclude from the scores, for the therapist to reword and sign.</summary>
    /// <param name="session">A session that a reader has checked, with its scores.</param>
    /// <exception cref="ArgumentException">The options have no definition of the session's instrument.</exception>
    public string DraftConclusion(ScoredSession session) => Conclusion.Draft(Context(session, session.Session.EndedAt));

    private SessionContext Context(ScoredSession session, DateTimeOffset issued)
    {
        ArgumentNullException.ThrowIfNull(session);
        var (id, version) = session.Session.Instrument;
        var instrument = options.Instruments.Find(id, version)
            ?? throw new ArgumentException($"No definition of {id} {version}.", nameof(session));
        return new(session, instrument, options, issued);
    }

    private static IEnumerable<Resource> Resources(SessionContext context)
    {
        var hands = Enum.GetValues<Hand>();
        yield return SoftwareDeviceMapper.Map(context);
        if (context.Session.Setup.Kit is { } kit)
        {
            yield return KitMapper.Map(context, kit);
        }

        yield return SetupResponseMapper.Map(context);
        yield return DominanceMapper.Map(context);
        foreach (var trial in from task in context.Instrument.Tasks from hand in hands select context.Counted(task.Id, hand))
        {
            yield return TrialMapper.Map(context, trial);
        }

        foreach (var attempt in context.Scored.Trials.Where(t => !t.Trial.Counted))
        {
            yield return UncountedAttemptMapper.Map(context, attempt);
        }

        foreach (var total in context.Scored.Totals)
        {
            yield return TotalMapper.Map(context, total);
        }

        foreach (var hand in hands)
        {
            yield return PanelMapper.Map(context, hand);
        }

        yield return ReportMapper.Map(context);
    }
}
