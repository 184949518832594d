using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Mapping;

/// <summary>Elements of a type anywhere within another.</summary>
internal static class Parts
{
    public static IEnumerable<T> Of<T>(Base element)
        where T : Base
    {
        var within = element.EnumerateElements().SelectMany(child => child.Value switch
        {
            Base one => Of<T>(one),
            IEnumerable<Base> several => several.SelectMany(Of<T>),
            _ => [],
        });
        return element is T found ? within.Prepend(found) : within;
    }
}
