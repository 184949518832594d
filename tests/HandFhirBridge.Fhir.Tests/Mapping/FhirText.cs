using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Fhir.Tests.Mapping;

/// <summary>Resources as JSON, read strictly.</summary>
internal static class FhirText
{
    private static readonly FhirJsonDeserializer Strict = new(new DeserializerSettings().UsingMode(DeserializationMode.Strict));

    public static string Of(Base resource) => resource.ToJson();

    public static T Parse<T>(string json)
        where T : Resource => (T)Strict.DeserializeResource(json);

    /// <summary>The resource after a way through text.</summary>
    public static T ThroughText<T>(T resource)
        where T : Resource => Parse<T>(Of(resource));
}
