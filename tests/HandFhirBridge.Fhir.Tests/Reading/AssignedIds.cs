using System.Globalization;
using HandFhirBridge.Fhir.Tests.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Reading;

/// <summary>A bundle as a server gives it back that assigns ids of its own (R4 http.html#create: the server assigns the id).</summary>
internal static class AssignedIds
{
    /// <param name="bundle">As sent.</param>
    /// <param name="address">Form of a reference: {0} type, {1} id.</param>
    public static Bundle Of(Bundle bundle, string address)
    {
        var text = FhirText.Of(bundle);
        foreach (var (resource, number) in bundle.Entry.Select((entry, place) => (entry.Resource!, place + 1001)))
        {
            var reference = string.Format(CultureInfo.InvariantCulture, address, resource.TypeName, number);
            text = text.Replace($"\"reference\":\"urn:uuid:{resource.Id}\"", $"\"reference\":\"{reference}\"", StringComparison.Ordinal)
                .Replace($"\"id\":\"{resource.Id}\"", $"\"id\":\"{number}\"", StringComparison.Ordinal);
        }

        return FhirText.Parse<Bundle>(text);
    }
}
