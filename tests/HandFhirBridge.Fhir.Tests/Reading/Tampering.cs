using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Tests.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Reading;

/// <summary>Ways in which a record can be wrong, each with the code that must name it.</summary>
internal static class Tampering
{
    /// <summary>The session that is tampered with: a void attempt repeated, one trial stopped at the cap, one declined.</summary>
    public static Session Session { get; } = Samples.Repeated
        .With("writing", Hand.Right, t => t with { Outcome = TrialOutcome.StoppedAtCap, Seconds = Samples.Repeated.Setup.CapSeconds })
        .With("large-heavy-objects", Hand.Right, t => t with { Outcome = TrialOutcome.Declined, Seconds = null, Source = null });

    public static IReadOnlyDictionary<string, (string Code, Action<Bundle> Change)> All { get; } = new Dictionary<string, (string, Action<Bundle>)>
    {
        ["no report"] = ("HFB3201", b => b.Remove<DiagnosticReport>(_ => true)),
        ["report of another system"] = ("HFB3201", b => b.Report().Identifier[0].System = "https://elsewhere.example/report"),
        ["second session"] = ("HFB3202", b => b.Entry.AddRange(Mapped.Map(Samples.Clean).Entry)),
        ["trial not given"] = ("HFB3203", b => b.Remove<Observation>(o => o.Code.Coding[0].Code == "writing-left")),
        ["trial not listed"] = ("HFB3203", b => b.Report().Result.RemoveAll(r => r.Reference == $"urn:uuid:{b.Writing().Id}")),
        ["set-up not given"] = ("HFB3203", b => b.Remove<QuestionnaireResponse>(_ => true)),
        ["kit not given"] = ("HFB3203", b => b.Remove<Device>(d => d.Version.Count == 0)),
        ["uncounted attempt not given"] = ("HFB3203", b => b.Remove<Observation>(o => o.Code.Coding[0].Code == "card-turning-left-uncounted")),
        ["places in the order run not each once"] = ("HFB3203", b => b.Writing().SetExtension(Extensions.RunOrder, new PositiveInt(2))),
        ["two versions of one resource"] = ("HFB3204", b => b.AddCopy(b.Writing(), o => o.Value = null, sameId: true)),
        ["trial twice in the record"] = ("HFB3204", b => b.Report().Result.Add(new($"urn:uuid:{b.AddCopy(b.Writing(), _ => { }, sameId: false).Id}"))),
        ["no performer name"] = ("HFB3205", b => b.Report().Performer[0].Display = null),
        ["no place in the order run"] = ("HFB3205", b => b.Writing().RemoveExtension(Extensions.RunOrder)),
        ["no outcome"] = ("HFB3205", b => b.Writing().RemoveExtension(Extensions.Outcome)),
        ["no reason without a score"] = ("HFB3205", b => b.Stopped().RemoveExtension(Extensions.NotJudged)),
        ["no family name"] = ("HFB3205", b => b.Setup().Item.RemoveAll(i => i.LinkId == "family-name")),
        ["minutes"] = ("HFB3206", b => b.Seconds().Code = "min"),
        ["unknown outcome"] = ("HFB3206", b => b.Writing().SetExtension(Extensions.Outcome, new Code("halted"))),
        ["day without time"] = ("HFB3206", b => b.Writing().Effective = new FhirDateTime("2026-04-30")),
        ["time without offset"] = ("HFB3206", b => b.Writing().Effective = new FhirDateTime("2026-04-30T16:09:00")),
        ["other questionnaire"] = ("HFB3206", b => b.Setup().Questionnaire = Canonicals.SetupQuestionnaire + "9"),
        ["unknown question"] = ("HFB3206", b => b.Setup().Item[0].LinkId = "gloves"),
        ["two answers"] = ("HFB3206", b => b.Item("family-name").Answer.Add(new() { Value = new FhirString("Other") })),
        ["answer of another system"] = ("HFB3206", b => ((Coding)b.Item("glasses").Answer[0].Value!).System = CodeSystems.Task),
        ["handedness of another meaning"] = ("HFB3206", b => ((CodeableConcept)b.Handed().Value!).Coding[0].Code = "57427004"),
        ["result of somebody else"] = ("HFB3206", b => b.Report().Result.Add(new($"urn:uuid:{b.AddCopy(b.Writing(), o => o.Identifier.Clear(), sameId: false).Id}"))),
        ["two orders"] = ("HFB3206", b => b.Report().BasedOn = [.. Enumerable.Repeat(b.Report().Encounter!, 2)]),
        ["two unsigned notes"] = ("HFB3206", b => b.Writing().Note = [new() { Text = "a" }, new() { Text = "b" }]),
        ["norm without SD"] = ("HFB3206", b => b.NormPart("standardDeviation").Value = new FhirDecimal(0)),
        ["other seconds"] = ("HFB3207", b => b.Seconds().Value = 12.73m),
        ["other z-score"] = ("HFB3207", b => ((Quantity)b.Writing().Component(ComponentCodes.ZScore)!.Value!).Value = 1.89m),
        ["z-score removed"] = ("HFB3207", b => b.Writing().Component.RemoveAll(c => c.Code.Coding[0].Code == ComponentCodes.ZScore)),
        ["slow made normal"] = ("HFB3207", b => b.Writing().Interpretation[0].Coding[0].Code = "N"),
        ["other hand as site"] = ("HFB3207", b => b.Writing().BodySite!.Coding[0].Code = "78791008"),
        ["other hand in code"] = ("HFB3207", b => b.Writing().Code.Coding[0].Code = "writing-right"),
        ["other role"] = ("HFB3207", b => b.Writing().Component(ComponentCodes.HandRole)!.Value = Concept(CodeSystems.HandRole, "dominant")),
        ["other patient"] = ("HFB3207", b => b.Writing().Subject!.Identifier!.Value = "AST-20-143"),
        ["other chart"] = ("HFB3207", b => (b.Report().Subject!.Reference, b.Writing().Subject!.Reference) = ("Patient/1", "Patient/2")),
        ["set-up of another patient"] = ("HFB3207", b => b.Setup().Subject!.Identifier!.Value = "AST-20-143"),
        ["other encounter"] = ("HFB3207", b => b.Writing().Encounter!.Identifier!.Value = "E-0"),
        ["other tester"] = ("HFB3207", b => b.Writing().Performer[0].Identifier!.Value = "AST-S-99"),
        ["bound made a time"] = ("HFB3207", b => ((Quantity)b.Stopped().Value!).Comparator = null),
        ["bound not marked"] = ("HFB3207", b => b.Stopped().Interpretation.Clear()),
        ["time for a declined task"] = ("HFB3207", b => b.Declined().Value = b.Writing().Value),
        ["other reason for no time"] = ("HFB3207", b => b.Declined().DataAbsentReason!.Coding[0].Code = "error"),
        ["time and reason for none"] = ("HFB3207", b => b.Writing().DataAbsentReason = b.Declined().DataAbsentReason),
        ["time of a cancelled trial"] = ("HFB3207", b => b.Writing().Status = ObservationStatus.Cancelled),
        ["other total"] = ("HFB3207", b => ((Quantity)b.OfCode("seven-task-total-left").Value!).Value = 100m),
        ["total of an incomplete hand"] = ("HFB3207", b => b.OfCode("seven-task-total-right").Value = b.OfCode("seven-task-total-left").Value),
        ["total of other trials"] = ("HFB3207", b => b.OfCode("seven-task-total-left").DerivedFrom.RemoveAt(0)),
        ["panel without a member"] = ("HFB3207", b => b.OfCode("panel-left").HasMember.RemoveAt(0)),
        ["other norm mean"] = ("HFB3207", b => b.NormPart("mean").Value = new FhirDecimal(50m)),
        ["other limit of the norm"] = ("HFB3207", b => b.Writing().ReferenceRange[0].High!.Value = 99m),
        ["norm of the other sex"] = ("HFB3207", b => b.Writing().ReferenceRange[0].AppliesTo[0] = Concept(CodeSystems.Gender, "female")),
        ["norm of another age"] = ("HFB3207", b => b.Writing().ReferenceRange[0].Age!.Low!.Value = 50),
        ["norm from memory for patients"] = ("HFB3207", b => b.NormPart("demonstrationOnly").Value = new FhirBoolean(false)),
        ["other reason without a score"] = ("HFB3207", b => b.Stopped().SetExtension(Extensions.NotJudged, new Code("no-norm"))),
        ["other revision"] = ("HFB3207", b => b.Setup().SetExtension(Extensions.SessionRevision, new PositiveInt(2))),
        ["other period"] = ("HFB3207", b => ((Period)b.Report().Effective!).End = "2026-04-30T17:26:00-04:00"),
        ["cap and none"] = ("HFB3207", b => b.Item("cap-in-force").Answer[0].Value = new FhirBoolean(false)),
        ["attempt of another number"] = ("HFB3207", b => b.Void().Identifier[0].Value = $"{Session.Key}/card-turning/left/2"),
        ["attempt for another trial"] = ("HFB3207", b => b.Void().SetExtension(Extensions.CountedTrial, new ResourceReference($"urn:uuid:{b.Writing().Id}"))),
        ["other kit"] = ("HFB3207", b => b.Writing().Device!.Display = "Red case"),
        ["withdrawn"] = ("HFB3208", b => b.Report().Status = DiagnosticReport.DiagnosticReportStatus.EnteredInError),
        ["trial withdrawn"] = ("HFB3208", b => b.Writing().Status = ObservationStatus.EnteredInError),
        ["set-up withdrawn"] = ("HFB3208", b => b.Setup().Status = QuestionnaireResponse.QuestionnaireResponseStatus.EnteredInError),
        ["preliminary"] = ("HFB3209", b => b.Writing().Status = ObservationStatus.Preliminary),
        ["more than the cap"] = ("HFB3210", b => b.Seconds().Value = 199.99m),
        ["handedness against the hand tested"] = ("HFB3210", b => ((CodeableConcept)b.Handed().Value!).Coding[0].Code = "87683000"),
        ["departure nobody knows"] = ("HFB3210", b => b.Void().Component[1].Value = Concept(CodeSystems.Departure, "sneezed")),
        ["other instrument"] = ("HFB3211", b => b.Item("instrument-version").Answer[0].Value = new FhirString("99")),
        ["modifier within a component"] = ("HFB3212", b => b.Writing().Component[0].ModifierExtension.Add(new("https://elsewhere.example/not", new FhirBoolean(true)))),
        ["implicit rules"] = ("HFB3212", b => b.Setup().ImplicitRules = "https://elsewhere.example/rules"),
    };

    private static CodeableConcept Concept(string system, string code) => new(system, code);
}
