using HandFhirBridge.Fhir.Tests.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Reading;

public sealed class RoundTripTests
{
    public static TheoryData<string, bool, bool> Examples
    {
        get
        {
            var data = new TheoryData<string, bool, bool>();
            foreach (var name in Repository.ExampleSessions().Select(p => Path.GetFileNameWithoutExtension(p)))
            {
                data.Add(name, true, true);
                data.Add(name, false, false);
            }

            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Examples))]
    public void Read_WhatWasMapped_GivesTheSameScoredSession(string example, bool demonstration, bool snomed)
    {
        var scored = Mapped.Score(Mapped.Example(example), demonstration);
        var bundle = Mapped.Map(scored, Mapped.Options with { SnomedLicensed = snomed });
        ReadBack.ShouldBeTheSame(ReadBack.ReadWhole(bundle), scored);
    }

    [Theory]
    [InlineData("{0}/{1}")]
    [InlineData("https://record.example/fhir/{0}/{1}")]
    [InlineData("https://record.example/fhir/{0}/{1}/_history/3")]
    public void Read_ServerAssignedIds_FollowsTheReferences(string address)
    {
        var scored = Mapped.Score(Mapped.Example("vandermoss-visit-2"));
        ReadBack.ShouldBeTheSame(ReadBack.ReadWhole(AssignedIds.Of(Mapped.Map(scored), address)), scored);
    }

    // R4 http.html#search: a searchset holds matches, included resources and possibly an OperationOutcome.
    [Fact]
    public void Read_SearchsetsWithOthersAndRepeats_GivesTheSession()
    {
        var scored = Mapped.Score(Mapped.Example("vandermoss-visit-2"));
        var resources = ReadBack.Resources(Mapped.Map(scored)).Reverse().ToList();
        var page1 = Searchset(resources.Take(15).Append(new OperationOutcome()));
        var page2 = Searchset(resources.Skip(10).Append(new Patient { Id = "p1" }).Append(new Observation { Id = "of-another", Status = ObservationStatus.Final, Code = new("http://loinc.org", "8867-4") }));
        var read = ReadBack.Reader.Read([page1, FhirText.ThroughText(page2)]);
        read.Problems.ShouldBeEmpty();
        ReadBack.ShouldBeTheSame(read.Value!, scored);
    }

    // Delivery adds the chart's address to each subject.
    [Fact]
    public void Read_WithPatientAddress_GivesTheSession()
    {
        var scored = Mapped.Score(Mapped.Example("pellwick-visit-1"), demonstration: false);
        var bundle = Mapped.Map(scored);
        foreach (var subject in Subjects(bundle))
        {
            subject.Reference = "Patient/77";
        }

        ReadBack.ShouldBeTheSame(ReadBack.ReadWhole(bundle), scored);
    }

    // Somebody signs a note of his own: R4 datatypes.html#Annotation, author.
    [Fact]
    public void Read_NoteAddedByAnother_IsNotOurs()
    {
        var scored = Mapped.Score(Mapped.Example("vandermoss-visit-2"));
        var bundle = Mapped.Map(scored);
        foreach (var observation in ReadBack.Resources(bundle).OfType<Observation>())
        {
            observation.Note.Add(new Annotation { Author = new FhirString("Ward physician"), Text = "Seen." });
        }

        ReadBack.ShouldBeTheSame(ReadBack.ReadWhole(bundle), scored);
    }

    internal static IEnumerable<ResourceReference> Subjects(Bundle bundle) => ReadBack.Resources(bundle).Select(resource => resource switch
    {
        Observation o => o.Subject,
        DiagnosticReport r => r.Subject,
        QuestionnaireResponse q => q.Subject,
        _ => null,
    }).OfType<ResourceReference>();

    private static Bundle Searchset(IEnumerable<Resource> resources) => new()
    {
        Type = Bundle.BundleType.Searchset,
        Entry = [.. resources.Select(r => new Bundle.EntryComponent { FullUrl = r.Id is null ? null : $"https://record.example/fhir/{r.TypeName}/{r.Id}", Resource = r })],
    };
}
