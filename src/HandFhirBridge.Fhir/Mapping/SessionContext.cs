using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>What the resources of one session share.</summary>
/// <param name="scored">Session with its scores.</param>
/// <param name="instrument">Definition it was given by.</param>
/// <param name="options">What the site decided.</param>
/// <param name="issued">When the resources are made.</param>
internal sealed class SessionContext(ScoredSession scored, Instrument instrument, MappingOptions options, DateTimeOffset issued)
{
    public ScoredSession Scored { get; } = scored;

    public Session Session => Scored.Session;

    public Instrument Instrument { get; } = instrument;

    public InstrumentWords Words { get; } = new(instrument);

    public MappingOptions Options { get; } = options;

    public DateTimeOffset Issued { get; } = issued;

    public SessionKeys Keys { get; } = SessionKeys.Of(scored.Session);

    public bool IsCorrection => Session.Revision > 1;

    /// <summary>Status of an observation that has a result.</summary>
    public ObservationStatus ResultStatus => IsCorrection ? ObservationStatus.Corrected : ObservationStatus.Final;

    /// <summary>The counted trial of a task and hand.</summary>
    /// <exception cref="InvalidOperationException">There is none or more than one: the session was not checked on reading.</exception>
    public ScoredTrial Counted(string task, Hand hand) => Scored.Counted.Single(t => t.Trial.Task == task && t.Trial.Hand == hand);

    /// <summary>Meta of a resource that belongs to this session alone.</summary>
    public Meta Meta(string profile)
    {
        var meta = new Meta { Profile = [profile] };
        if (Scored.Demonstration)
        {
            meta.Security.Add(new Coding(CodeSystems.ActReason, "HTEST", "test health data"));
        }

        return meta;
    }

    public ResourceReference Trial(string task, Hand hand) => Reference(IdentifierSystems.Trial, Keys.Trial(task, hand));

    public ResourceReference Total(string totalId, Hand hand) => Reference(IdentifierSystems.Total, Keys.Total(totalId, hand));

    public ResourceReference Panel(Hand hand) => Reference(IdentifierSystems.Panel, Keys.Panel(hand));

    public ResourceReference Dominance() => Reference(IdentifierSystems.Dominance, Keys.Session);

    public ResourceReference SetupResponse() => Reference(IdentifierSystems.SetupResponse, Keys.Session);

    public ResourceReference Software() => Reference(IdentifierSystems.Software, Options.SoftwareVersion);

    /// <summary>The kit, or null if the session names none.</summary>
    public ResourceReference? Kit()
    {
        if (Session.Setup.Kit is not { } kit)
        {
            return null;
        }

        var reference = Reference(IdentifierSystems.Kit, Keys.Kit(kit));
        reference.Display = kit.Name;
        return reference;
    }

    private static ResourceReference Reference(string system, string value) => new(ResourceIds.Urn(ResourceIds.Of(system, value)));
}
