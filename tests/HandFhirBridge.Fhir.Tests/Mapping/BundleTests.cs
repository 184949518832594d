using System.Text.RegularExpressions;
using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Mapping;

public sealed partial class BundleTests
{
    private readonly Bundle bundle = Mapped.Map(Samples.Repeated);

    // R4 bundle.html, constraint bdl-3 and "Transaction": each entry has a request; http.html#upsert: update as create is PUT [type]/[id].
    [Fact]
    public void Map_EachEntry_IsPutToItsOwnPlace()
    {
        bundle.Type.ShouldBe(Bundle.BundleType.Transaction);
        foreach (var entry in bundle.Entry)
        {
            entry.Request!.Method.ShouldBe(Bundle.HTTPVerb.PUT);
            entry.Request.Url.ShouldBe($"{entry.Resource!.TypeName}/{entry.Resource.Id}");
            entry.FullUrl.ShouldBe($"urn:uuid:{entry.Resource.Id}");
        }
    }

    // R4 bundle.html, constraint bdl-7: a fullUrl is unique. datatypes.html#id: the syntax of an id.
    [Fact]
    public void Map_FullUrls_AreUniqueAndIdsAllowed()
    {
        bundle.Entry.Select(e => e.FullUrl).ShouldBeUnique();
        bundle.Entry.ShouldAllBe(e => IdForm().IsMatch(e.Resource!.Id!));
    }

    // R4 bundle.html#references: a urn:uuid reference is resolved against the fullUrls of the same bundle.
    [Fact]
    public void Map_InternalReferences_PointToAnEarlierEntry()
    {
        var earlier = new HashSet<string>();
        foreach (var entry in bundle.Entry)
        {
            foreach (var reference in Parts.Of<ResourceReference>(entry.Resource!).Where(r => r.Reference is not null))
            {
                earlier.ShouldContain(reference.Reference!, $"{entry.Request!.Url} refers to {reference.Reference}");
            }

            earlier.Add(entry.FullUrl!);
        }
    }

    // R4 references.html#logical: a reference by identifier carries type and identifier, and no address until the target is known.
    [Fact]
    public void Map_PeopleAndPlaces_AreLogicalReferences()
    {
        var logical = bundle.Entry.SelectMany(e => Parts.Of<ResourceReference>(e.Resource!)).Where(r => r.Reference is null && r.Display?.StartsWith("sha-256:", StringComparison.Ordinal) != true).ToList();
        logical.Select(r => r.Type).Distinct().Order().ShouldBe(["Encounter", "Organization", "Patient", "Practitioner", "ServiceRequest"]);
        logical.ShouldAllBe(r => r.Identifier != null && r.Identifier.System != null && r.Identifier.Value != null);
    }

    [Fact]
    public void Map_AnySession_NeverMakesAPatient() =>
        bundle.Entry.Select(e => e.Resource!.TypeName).Distinct().Order()
            .ShouldBe(["Device", "DiagnosticReport", "Observation", "Provenance", "QuestionnaireResponse"]);

    // 14 counted trials, 4 totals, 2 panels, handedness and one attempt that does not count; set-up, report, provenance, two devices.
    [Fact]
    public void Map_SevenTasksTwoHands_GivesEachResourceOnce()
    {
        bundle.All<Observation>().Count().ShouldBe(14 + 4 + 2 + 1 + 1);
        bundle.Entry.Count.ShouldBe(22 + 3 + 2);
    }

    [Fact]
    public void Map_WithoutKit_MakesNoKitAndNoDeviceOfTrials()
    {
        var without = Mapped.Map(Samples.Clean with { Setup = Samples.Clean.Setup with { Kit = null } });
        without.All<Device>().Count().ShouldBe(1);
        without.All<Observation>().ShouldAllBe(o => o.Device == null);
    }

    // Observation.device in R4 is what the measurement was made with; the scoring software measured nothing.
    [Fact]
    public void Map_WithKit_DeviceOfEachTrialIsTheKit()
    {
        var kit = bundle.All<Device>().Single(d => d.Version.Count == 0);
        bundle.Trial("writing", Hand.Left).Device!.Reference.ShouldBe($"urn:uuid:{kit.Id}");
        kit.DeviceName.Single().Name.ShouldBe("Blue case");
    }

    // R4 resource.html#Meta: security labels; v3-ActReason HTEST marks test health data. Devices are shared by sessions and stay unmarked.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Map_Demonstration_MarksExactlyWhatBelongsToTheSession(bool demonstration)
    {
        foreach (var resource in Mapped.Map(Samples.Clean, demonstration).Entry.Select(e => e.Resource!))
        {
            var marked = resource.Meta!.Security.Any(s => s is { System: "http://terminology.hl7.org/CodeSystem/v3-ActReason", Code: "HTEST" });
            marked.ShouldBe(demonstration && resource is not Device, resource.TypeName);
        }
    }

    [GeneratedRegex(@"^[A-Za-z0-9\-.]{1,64}\z")]
    private static partial Regex IdForm();
}
