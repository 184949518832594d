using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Remembered;

/// <summary>The shapes of what is validated: of a resource, or of a bundle without its entries' resources and of each of those.</summary>
/// <param name="Frame">The resource or the bundle; null if something in it is out of the ordinary.</param>
/// <param name="Entries">One for each entry of a bundle; null where out of the ordinary.</param>
internal sealed record SessionShapes(ShapeKey? Frame, ShapeKey?[] Entries)
{
    private static readonly SessionShapes OutOfTheOrdinary = new(null, []);

    internal static SessionShapes Of(Resource resource)
    {
        if (resource is not Bundle bundle)
        {
            return new(ShapeWriter.Of(resource, null), []);
        }

        return BundleAddresses.Of(bundle) is { } addresses
            ? new(ShapeWriter.Of(bundle, addresses), [.. bundle.Entry.Select(entry => ShapeWriter.Of(entry.Resource!, addresses))])
            : OutOfTheOrdinary;
    }
}
