using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping.Narratives;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>The report of a session. All results are listed, as many viewers do not follow the members of panels.</summary>
internal static class ReportMapper
{
    public static DiagnosticReport Map(SessionContext context)
    {
        var order = People.Order(context);
        return new()
        {
            Id = ResourceIds.Of(IdentifierSystems.Report, context.Keys.Session),
            Meta = context.Meta(Canonicals.Report),
            Text = ReportNarrative.Of(context),
            Extension = [.. ExtensionsOf(context)],
            Identifier = [new Identifier(IdentifierSystems.Report, context.Keys.Session)],
            BasedOn = order is null ? [] : [order],
            Status = context.IsCorrection ? DiagnosticReport.DiagnosticReportStatus.Corrected : DiagnosticReport.DiagnosticReportStatus.Final,
            Category = [Concepts.Concept(new(CodeSystems.DiagnosticService, "OT", "Occupational Therapy"))],
            Code = Concepts.Concept(Concepts.Coded(CodeSystems.Measure, MeasureCodes.Report)),
            Subject = People.Patient(context),
            Encounter = People.Encounter(context),
            Effective = new Period
            {
                StartElement = new FhirDateTime(context.Session.StartedAt),
                EndElement = new FhirDateTime(context.Session.EndedAt),
            },
            IssuedElement = new Instant(context.Issued),
            Performer = [People.Performer(context), People.Clinic(context)],
            ResultsInterpreter = [People.Performer(context)],
            Result = [.. Results(context)],
            Conclusion = Conclusion.Of(context),
        };
    }

    private static IEnumerable<Extension> ExtensionsOf(SessionContext context) =>
    [
        new(Extensions.SessionRevision, new PositiveInt(context.Session.Revision)),
        new(Extensions.SupportingInfo, context.SetupResponse()),
        .. context.Session.Conclusion is { } signed ? [SignedWords.Of(signed)] : Array.Empty<Extension>(),
        .. context.Scored.Trials.SelectMany(t => t.Norms)
            .DistinctBy(n => (n.NormSetId, n.NormSetVersion, n.Cell.Source, n.Cell.Evidence))
            .Select(NormSource.Set),
    ];

    private static IEnumerable<ResourceReference> Results(SessionContext context)
    {
        var hands = Enum.GetValues<Hand>();
        return
        [
            .. hands.Select(context.Panel),
            .. context.Instrument.Totals.SelectMany(total => hands.Select(hand => context.Total(total.Id, hand))),
            .. context.Instrument.Tasks.SelectMany(task => hands.Select(hand => context.Trial(task.Id, hand))),
            context.Dominance(),
        ];
    }
}
