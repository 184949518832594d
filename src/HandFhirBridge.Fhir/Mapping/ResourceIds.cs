namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Logical ids of our resources: name-based, so that the same session always writes to the same places.</summary>
public static class ResourceIds
{
    private static readonly Guid Namespace = NameBasedUuid.Of(NameBasedUuid.UrlNamespace, Canonicals.Base);

    /// <summary>Id of the resource that carries this identifier.</summary>
    /// <param name="system">One of <see cref="IdentifierSystems"/>.</param>
    /// <param name="value">Value in that system.</param>
    public static string Of(string system, string value) => NameBasedUuid.Of(Namespace, $"{system}|{value}").ToString("D");

    /// <summary><c>fullUrl</c> and reference inside a bundle.</summary>
    public static string Urn(string id) => $"urn:uuid:{id}";
}
