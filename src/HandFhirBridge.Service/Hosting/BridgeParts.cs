using System.Collections.Immutable;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Reading;
using HandFhirBridge.Fhir.Validation;
using HandFhirBridge.Service.Norms;
using HandFhirBridge.Service.Pipeline;
using HandFhirBridge.Service.Reports;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Hosting;

/// <summary>Makes the parts of the corridor from the settings.</summary>
/// <param name="settings">Checked settings.</param>
/// <param name="clock">Gives the time.</param>
public sealed class BridgeParts(BridgeSettings settings, TimeProvider clock)
{
    /// <summary>Version of this program, as its resources name it.</summary>
    public static string Version { get; } = typeof(BridgeParts).Assembly.GetName().Version?.ToString(3) ?? "0.0.0";

    /// <summary>Instruments that can be scored.</summary>
    public InstrumentLibrary Instruments { get; } = InstrumentLibrary.Embedded;

    /// <summary>Reads session documents.</summary>
    public SessionReader Reader => new(Instruments, clock);

    /// <summary>Norms that come with the product, and those the site entered twice.</summary>
    public NormLibrary Norms => new NormDirectory(settings.NormsDirectory).Usable(Instruments)
        .Aggregate(NormLibrary.Embedded, (library, set) => library.With(set));

    /// <summary>Measurement errors the site took from publications.</summary>
    public ImmutableArray<MeasurementError> MeasurementErrors =>
    [
        .. settings.MeasurementErrors.Select(e => new MeasurementError(
            e.Subject,
            e.Role switch { "dominant" => HandRole.Dominant, "non-dominant" => HandRole.NonDominant, _ => null },
            e.Population,
            e.Sem ?? MeasurementError.SemOf(e.StandardDeviation!.Value, e.Icc!.Value),
            e.Level,
            e.Source) { Instrument = e.Instrument }),
    ];

    /// <summary>Makes reports of sessions.</summary>
    public ReportBuilder Reports => new(Instruments, MeasurementErrors);

    /// <summary>Attaches printed reports.</summary>
    public PresentedForms Forms => new(new SessionResources(Instruments, clock), Reports, new SiteRegister(settings));

    /// <summary>The corridor up to the ledger.</summary>
    public SessionPipeline Pipeline() => new(
        Reader,
        new SiteRegister(settings),
        new Scorer(Instruments, Norms, new ScoringOptions(settings.Demonstration)),
        new SessionMapper(new MappingOptions { SoftwareVersion = Version, Sites = Sites(), Instruments = Instruments }),
        Forms,
        new Lazy<SessionValidator>(() => SessionValidator.Shared),
        clock);

    private SiteDirectory Sites() => new(settings.Sites.ToImmutableDictionary(
        s => s.Id,
        s => new SiteOrganization(new(s.IdentifierSystem ?? IdentifierSystems.Site, s.IdentifierValue ?? s.Id), s.Name),
        StringComparer.Ordinal));
}
