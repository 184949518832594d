using System.Security.Cryptography;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Mapping;

public sealed class ProvenanceMapperTests
{
    private readonly Bundle bundle = Mapped.Map(Samples.Clean);
    private readonly Provenance provenance;

    public ProvenanceMapperTests() => provenance = bundle.Only<Provenance>();

    // R4 provenance.html: target is what was made by the activity.
    [Fact]
    public void Map_Targets_AreAllOthersOfTheBundle() =>
        provenance.Target.Select(t => t.Reference).ShouldBe(bundle.Entry.Where(e => e.Resource is not Provenance).Select(e => e.FullUrl));

    // R4 provenance-participant-type author, assembler; US Core constraint provenance-1: an agent that is no organization is on behalf of one.
    [Fact]
    public void Map_Agents_AreTherapistAndSoftwareForTheClinic()
    {
        provenance.Agent.Select(a => a.Type!.Coding.Single().Code).ShouldBe(["author", "assembler"]);
        provenance.Agent[0].Who.Display.ShouldBe("Ines Calderwick");
        provenance.Agent[0].Role.Single().Coding.Single().Code.ShouldBe("occupational-therapist");
        var software = bundle.Entry.Single(e => e.FullUrl == provenance.Agent[1].Who.Reference).Resource.ShouldBeOfType<Device>();
        software.Version.Single().Value.ShouldBe("0.1.0");
        provenance.Agent.ShouldAllBe(a => a.OnBehalfOf!.Type == "Organization");
    }

    // FIPS 180-4: SHA-256 of the document's bytes; R4 Provenance has no identifier, so its tag names the session.
    [Fact]
    public void Map_Entity_IsTheDocumentByItsDigest()
    {
        var digest = Convert.ToHexStringLower(SHA256.HashData(SessionWriter.Write(Samples.Clean)));
        var entity = provenance.Entity.Single();
        entity.Role.ShouldBe(Provenance.ProvenanceEntityRole.Source);
        entity.What.Display.ShouldBe($"sha-256:{digest}");
        entity.What.Identifier!.Value.ShouldBe(Samples.Clean.Key);
        provenance.Meta!.Tag.Select(t => (t.System, t.Code)).ShouldBe([(IdentifierSystems.Session, Samples.Clean.Key), (IdentifierSystems.Provenance, $"{Samples.Clean.Key}/1")]);
    }
}
