using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Service.Tests.Intake;

/// <summary>The record that the example sessions are meant for, read by the FHIR SDK's strict R4 parser.</summary>
public sealed class ExamplePatientsTests
{
    private static readonly Bundle Batch = new FhirJsonDeserializer().Deserialize<Bundle>(File.ReadAllText(Path.Combine(Sources.Examples, "patients.json")));

    [Fact]
    public async System.Threading.Tasks.Task Patients_OfEverySession_StandInTheBatchOnceAndAgree()
    {
        foreach (var session in await SessionsAsync())
        {
            var patient = All<Patient>().Where(p => Matches(p.Identifier, session.Patient.Identifier)).ShouldHaveSingleItem();

            patient.Name.ShouldHaveSingleItem().Family.ShouldBe(session.Patient.FamilyName);
            patient.BirthDate.ShouldBe(session.Patient.BirthDate.ToString("yyyy-MM-dd", null));
            patient.Active.ShouldBe(true);
        }
    }

    [Fact]
    public async System.Threading.Tasks.Task PerformersAndSites_OfEverySession_StandInTheBatchOnce()
    {
        foreach (var session in await SessionsAsync())
        {
            All<Practitioner>().Where(p => Matches(p.Identifier, session.Performer.Identifier)).ShouldHaveSingleItem().Name[0].Text.ShouldBe(session.Performer.Name);
            All<Organization>().Where(o => Matches(o.Identifier, new BusinessIdentifier("https://handfhirbridge.example/identifier/site", session.Site))).ShouldHaveSingleItem();
        }
    }

    [Fact]
    public void Entries_ArePutUnderTheirOwnIds() =>
        Batch.Entry.Select(e => (e.Request?.Method, e.Request?.Url)).ShouldBe(
            Batch.Entry.Select(e => ((Bundle.HTTPVerb?)Bundle.HTTPVerb.PUT, (string?)$"{e.Resource!.TypeName}/{e.Resource.Id}")));

    private static async System.Threading.Tasks.Task<List<Session>> SessionsAsync() =>
        [.. (await Sources.ReadAsync(Path.Combine(Sources.Examples, "sessions"), Path.Combine(Sources.Examples, "backload"))).Select(i => i.Outcome.Value!)];

    private static IEnumerable<T> All<T>()
        where T : Resource => Batch.Entry.Select(e => e.Resource).OfType<T>();

    private static bool Matches(IEnumerable<Identifier> identifiers, BusinessIdentifier wanted) =>
        identifiers.Any(i => i.System == wanted.System && i.Value == wanted.Value);
}
