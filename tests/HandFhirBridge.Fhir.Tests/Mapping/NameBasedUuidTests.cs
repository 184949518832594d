using HandFhirBridge.Fhir.Mapping;

namespace HandFhirBridge.Fhir.Tests.Mapping;

public sealed class NameBasedUuidTests
{
    // RFC 9562, appendix A.4, "Example of a UUIDv5 Value": DNS namespace, name www.example.com.
    [Fact]
    public void Of_ExampleOfTheStandard_GivesItsUuid() =>
        NameBasedUuid.Of(NameBasedUuid.DnsNamespace, "www.example.com").ShouldBe(Guid.Parse("2ed6657d-e927-568b-95e1-2665a8aea6a2"));

    // RFC 9562, sections 4.1, 4.2 and 5.5: version 5 in the high nibble of octet 6, variant 10 in the two high bits of octet 8.
    [Theory]
    [InlineData("")]
    [InlineData("site/session")]
    [InlineData("Größe, Ωmega")]
    public void Of_AnyName_HasVersion5AndVariant(string name)
    {
        var uuid = NameBasedUuid.Of(NameBasedUuid.UrlNamespace, name);
        uuid.Version.ShouldBe(5);
        (uuid.ToByteArray(bigEndian: true)[8] >> 6).ShouldBe(0b10);
    }

    [Fact]
    public void Of_SameNameInAnotherNamespace_GivesAnotherUuid() =>
        NameBasedUuid.Of(NameBasedUuid.UrlNamespace, "www.example.com")
            .ShouldNotBe(NameBasedUuid.Of(NameBasedUuid.DnsNamespace, "www.example.com"));

    // RFC 9562, section 6.6, table 3: the ids of the two namespaces.
    [Fact]
    public void Namespaces_AreThoseOfTheStandard()
    {
        NameBasedUuid.DnsNamespace.ToString().ShouldBe("6ba7b810-9dad-11d1-80b4-00c04fd430c8");
        NameBasedUuid.UrlNamespace.ToString().ShouldBe("6ba7b811-9dad-11d1-80b4-00c04fd430c8");
    }
}
