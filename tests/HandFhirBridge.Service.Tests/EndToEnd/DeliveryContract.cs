using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Delivery.Reading;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Reading;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.EndToEnd;

/// <summary>What holds at every server after all example sessions were delivered to it: found, whole, equal, once.</summary>
public abstract class DeliveryContract(ExampleDelivery delivery)
{
    private static readonly SessionResources Resources = new(InstrumentLibrary.Embedded, TimeProvider.System);
    private static readonly JsonSerializerOptions Indented = new() { WriteIndented = true };

    protected static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    protected ExampleDelivery Delivery { get; } = delivery;

    [Fact]
    public async Task Search_ObservationByCode_FindsOneTrialOfEverySession()
    {
        foreach (var task in InstrumentLibrary.Embedded.Find("seven-task", "1")!.Tasks)
        {
            foreach (var hand in new[] { Hand.Left, Hand.Right })
            {
                var found = await ObservationsAsync(MeasureCodes.Trial(task.Id, hand));

                found.Select(o => Identifier(o, IdentifierSystems.Trial)).Order(StringComparer.Ordinal)
                    .ShouldBe(Delivery.Sessions.Select(s => $"{s.Key}/{task.Id}/{WireName.Of(hand)}").Order(StringComparer.Ordinal));
            }
        }
    }

    [Fact]
    public async Task Search_ReportByIdentifier_FindsExactlyOneInTheRightChart()
    {
        foreach (var session in Delivery.Sessions)
        {
            var report = (await ReportsAsync(session)).ShouldHaveSingleItem();

            ((string?)report["status"]).ShouldBe("final", session.Key);
            var patient = await Clinic.GetAsync(Delivery.Fhir, (string)report["subject"]!["reference"]!, Cancellation);
            var identity = session.Json["patient"]!;
            patient["identifier"]!.AsArray().ShouldContain(i => (string?)i!["value"] == (string?)identity["identifier"]!["value"]);
            ((string?)patient["name"]![0]!["family"]).ShouldBe((string?)identity["familyName"]);
            ((string?)patient["birthDate"]).ShouldBe((string?)identity["birthDate"]);
        }
    }

    [Fact]
    public async Task Search_ReportsByPatientIdentifier_FindsEveryVisitOfThePatient()
    {
        foreach (var visits in Delivery.Sessions.GroupBy(s => s.Session.Patient.Identifier))
        {
            var found = await Clinic.SearchAsync(
                Delivery.Fhir, $"DiagnosticReport?patient.identifier={Token(visits.Key.System, visits.Key.Value)}", Cancellation);

            found.Select(r => Identifier(r, IdentifierSystems.Report)).Order(StringComparer.Ordinal)
                .ShouldBe(visits.Select(v => v.Key).Order(StringComparer.Ordinal));
        }
    }

    [Fact]
    public async Task ReadBack_EverySession_EqualsWhatWentIn()
    {
        var reader = new RecordReader(Delivery.Fhir, Delivery.Fhir.BaseAddress!);
        foreach (var session in Delivery.Sessions)
        {
            var report = await reader.FindReportAsync(IdentifierSystems.Report, session.Key, Cancellation);
            var read = Resources.Read(await reader.ResourcesOfAsync(report.ShouldNotBeNull(), Cancellation));

            read.Problems.ShouldBeEmpty(session.Key);
            Canonical(read.Value!.Session).ShouldBe(Canonical(session.Session), session.Key);
            JsonSerializer.Serialize(read.Value, Indented).ShouldBe(JsonSerializer.Serialize(session.Scored, Indented), session.Key);
        }
    }

    // FHIR R4, datatypes, decimal: "The precision of the decimal value has significance"
    // (https://hl7.org/fhir/R4/datatypes.html#decimal); 12.40 is not 12.4.
    [Fact]
    public async Task Read_ValueOfEveryTrial_HasTheDigitsTheTherapistEntered()
    {
        var entered = Delivery.Sessions
            .SelectMany(s => s.Times.Select(t => (Key: $"{s.Key}/{t.Task}/{t.Hand}", t.Seconds)))
            .ToDictionary(t => t.Key, t => t.Seconds);
        entered.Values.Count(v => v.Contains('.', StringComparison.Ordinal) && v.EndsWith('0')).ShouldBeGreaterThan(10, "or the check says little");

        var recorded = await TimesInRecordAsync();

        recorded.OrderBy(t => t.Key, StringComparer.Ordinal).ShouldBe(entered.OrderBy(t => t.Key, StringComparer.Ordinal));
    }

    [Fact]
    public async Task Submit_EverySessionAgain_LeavesOneUnchangedReportOfEach()
    {
        var before = await VersionsAsync();

        foreach (var session in Delivery.Sessions)
        {
            await Clinic.SubmitAsync(Delivery.Service.Api, session.Document, Cancellation);
            await Clinic.DeliveredAsync(Delivery.Service.Api, session.Key, Cancellation);
        }

        (await VersionsAsync()).ShouldBe(before);
        before.Keys.Order(StringComparer.Ordinal).ShouldBe(Delivery.Sessions.Select(s => s.Key).Order(StringComparer.Ordinal));
    }

    // What is drawn and listed is what a plain search at the same server finds, digit by digit.
    [Fact]
    public async Task Course_OfEveryPatient_HasTheValuesOfTheObservationsAndNoOther()
    {
        var entered = await TimesInRecordAsync();
        var shown = new Dictionary<string, string>();
        foreach (var patient in Delivery.Sessions.GroupBy(s => s.Session.Patient.Identifier))
        {
            var view = await Clinic.GetAsync(
                Delivery.Service.Api, $"courses?system={Uri.EscapeDataString(patient.Key.System)}&value={Uri.EscapeDataString(patient.Key.Value)}", Cancellation);
            var sessions = view["course"]!["sessions"]!.AsArray();
            view["course"]!["notShown"]!.AsArray().ShouldBeEmpty(patient.Key.Value);
            sessions.Select(s => $"{s!["site"]}/{s["sessionId"]}").Order(StringComparer.Ordinal).ShouldBe(patient.Select(s => s.Key).Order(StringComparer.Ordinal));
            foreach (var series in view["course"]!["series"]!.AsArray().Where(s => !((string)s!["subject"]!).EndsWith("-total", StringComparison.Ordinal)))
            {
                foreach (var point in series!["points"]!.AsArray().Where(p => p!["seconds"] is not null))
                {
                    var session = sessions[(int)point!["session"]!]!;
                    shown.Add($"{session["site"]}/{session["sessionId"]}/{series["subject"]}/{series["hand"]}", point["seconds"]!.ToJsonString());
                    (await Clinic.GetAsync(Delivery.Fhir, (string)point["observation"]!, Cancellation))["valueQuantity"]!["comparator"]?.ToString()
                        .ShouldBe((string?)point["kind"] == "bound" ? ">" : null);
                }
            }
        }

        shown.OrderBy(t => t.Key, StringComparer.Ordinal).ShouldBe(entered.OrderBy(t => t.Key, StringComparer.Ordinal));
    }

    protected static string Canonical(Session session) => Encoding.UTF8.GetString(SessionWriter.Write(session));

    private async Task<Dictionary<string, string>> TimesInRecordAsync()
    {
        var times = new Dictionary<string, string>();
        foreach (var code in Delivery.Sessions.SelectMany(s => s.Times).Select(t => $"{t.Task}-{t.Hand}").Distinct())
        {
            foreach (var trial in (await ObservationsAsync(code)).Where(o => o["valueQuantity"] is not null))
            {
                times.Add(Identifier(trial, IdentifierSystems.Trial), trial["valueQuantity"]!["value"]!.ToJsonString());
            }
        }

        return times;
    }

    private async Task<SortedDictionary<string, string>> VersionsAsync()
    {
        var reports = await Clinic.SearchAsync(Delivery.Fhir, "DiagnosticReport?_count=50", Cancellation);
        return new(
            reports.ToDictionary(r => Identifier(r, IdentifierSystems.Report), r => (string)r["meta"]!["versionId"]!), StringComparer.Ordinal);
    }

    private Task<List<JsonNode>> ObservationsAsync(string code) =>
        Clinic.SearchAsync(Delivery.Fhir, $"Observation?code={Token(CodeSystems.Measure, code)}&_count=50", Cancellation);

    private Task<List<JsonNode>> ReportsAsync(DeliveredSession session) =>
        Clinic.SearchAsync(Delivery.Fhir, $"DiagnosticReport?identifier={Token(IdentifierSystems.Report, session.Key)}", Cancellation);

    private static string Identifier(JsonNode resource, string system) =>
        (string)resource["identifier"]!.AsArray().Single(i => (string?)i!["system"] == system)!["value"]!;

    private static string Token(string system, string value) => $"{Uri.EscapeDataString(system)}|{Uri.EscapeDataString(value)}";
}
