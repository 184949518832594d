using System.Net;
using HandFhirBridge.Service.Tests.Support;
using Hl7.Fhir.Model;
using Task = System.Threading.Tasks.Task;

namespace HandFhirBridge.Service.Tests.Http;

/// <summary>Who read or wrote which patient's data is kept, as R4's AuditEvent (http://hl7.org/fhir/R4/auditevent.html).</summary>
public sealed class AuditTests(RunningService service) : IClassFixture<RunningService>
{
    private const string Example = "tarrowby-visit-1";

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Calls_AboutAPatient_LeaveOneEventEachAndOthersNone()
    {
        var key = await Clinic.SubmitAsync(service.Api, await File.ReadAllTextAsync(Repository.Example("sessions", "harbour-hand-clinic", $"{Example}.json"), Cancellation), Cancellation);
        await Clinic.DeliveredAsync(service.Api, key, Cancellation);
        var before = Events().Count;

        var calls = new (string Path, HttpStatusCode Status, string Interaction, string Concerning)[]
        {
            ($"report/{key}", HttpStatusCode.OK, "read", key),
            ($"report/{key}/a4.pdf", HttpStatusCode.OK, "read", key),
            ($"sessions/{key}/bundle", HttpStatusCode.OK, "read", key),
            ("sessions/harbour-hand-clinic/none", HttpStatusCode.NotFound, "read", "harbour-hand-clinic/none"),
            ("courses?system=https://harbour-hand-clinic.example/id/patient&value=HHC-004417", HttpStatusCode.OK, "search-type", "HHC-004417"),
            ("patients?system=https://harbour-hand-clinic.example/id/patient&value=HHC-004417", HttpStatusCode.OK, "search-type", "HHC-004417"),
        };
        foreach (var call in calls)
        {
            using var answer = await service.Api.GetAsync(new Uri(call.Path, UriKind.Relative), Cancellation);
            answer.StatusCode.ShouldBe(call.Status, call.Path);
        }

        foreach (var path in new[] { "about", "health/ready", "ledger/summary" })
        {
            using var answer = await service.Api.GetAsync(new Uri(path, UriKind.Relative), Cancellation);
        }

        var events = Events();
        events.Count.ShouldBe(before + calls.Length);
        events.Skip(before).Select(e => $"{e.Entity[0].Name} {e.Outcome} {e.Subtype[0].Code} {e.Entity[1].What!.Identifier!.Value}")
            .ShouldBe(calls.Select(c => $"/{c.Path.Split('?')[0]} {(c.Status == HttpStatusCode.OK ? "N0" : "N4")} {c.Interaction} {c.Concerning}"));
        events.ShouldAllBe(e => e.Agent[0].Who!.Identifier!.Value == "demonstration" && e.Agent[0].Network!.Address == "127.0.0.1");
        // The submission itself.
        events.ShouldContain(e => e.Action == AuditEvent.AuditEventAction.C && e.Entity[1].What!.Identifier!.Value == key);
    }

    [Fact]
    public async Task Events_OfEveryKind_NameNobody()
    {
        await service.Api.GetAsync(new Uri("patients?system=https://harbour-hand-clinic.example/id/patient&value=HHC-004417", UriKind.Relative), Cancellation);

        // Charts are named by their ids, which in the examples are the family names in small letters.
        string.Concat(Lines()).ShouldNotContain("Tarrowby", Case.Sensitive);
        string.Concat(Lines()).ShouldNotContain("1988-04-12");
        Directory.EnumerateFiles(Folder).ShouldAllBe(file => OperatingSystem.IsWindows() || File.GetUnixFileMode(file) == (UnixFileMode.UserRead | UnixFileMode.UserWrite));
    }

    private string Folder => Path.Combine(service.DataDirectory, "audit");

    // The SDK's strict reader refuses what R4 does not define.
    private List<AuditEvent> Events() => [.. Lines().Select(FhirAnswer.Parse<AuditEvent>)];

    private IEnumerable<string> Lines() => Directory.EnumerateFiles(Folder, "AuditEvent-*.ndjson").Order(StringComparer.Ordinal).SelectMany(ReadLines);

    private static IEnumerable<string> ReadLines(string file)
    {
        using var reader = new StreamReader(new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite));
        return reader.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries);
    }
}
