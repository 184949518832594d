using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Remembered;

/// <summary>The entries of a bundle by their address, as far as a verdict on a reference to them depends on them: type and claimed profiles.</summary>
internal sealed class BundleAddresses
{
    private readonly Dictionary<string, Resource> _entries = new(StringComparer.Ordinal);

    private BundleAddresses()
    {
    }

    /// <summary>The addresses of a bundle; null if an entry has none, the same as another, or one that is no <c>urn:uuid:</c>.</summary>
    internal static BundleAddresses? Of(Bundle bundle)
    {
        var addresses = new BundleAddresses();
        return !bundle.HasOverflow && bundle.Entry.TrueForAll(entry => !entry.HasOverflow
            && entry.Resource is not null and not Bundle
            && entry.FullUrlElement?.JsonValue is string address
            && OrdinaryValue.IsAddress(address)
            && addresses._entries.TryAdd(address, entry.Resource))
            ? addresses
            : null;
    }

    /// <summary>The resource with an address; null if there is none.</summary>
    internal Resource? Find(string address) => _entries.GetValueOrDefault(address);
}
