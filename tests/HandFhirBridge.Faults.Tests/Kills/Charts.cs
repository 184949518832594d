using System.Globalization;
using System.Net.Http.Headers;
using System.Text.Json.Nodes;

namespace HandFhirBridge.Faults.Tests.Kills;

/// <summary>Invented charts, each with one beside it that must not be mistaken for it.</summary>
internal static class Charts
{
    public const string System = "https://north-clinic.example/patients";
    public const int Count = 8;
    private static readonly string[] Names = ["Lindqvist", "Brackwater", "Tarrowby", "Quillfeather"];

    /// <summary>Twins in pairs: name and birth date are the same, the identifiers differ in one digit.</summary>
    public static (string Identifier, string FamilyName, string BirthDate, string Id) Of(int number)
    {
        var patient = number % Count;
        return (
            string.Create(CultureInfo.InvariantCulture, $"P-{1000 + patient}"),
            Names[patient / 2],
            string.Create(CultureInfo.InvariantCulture, $"1961-04-{12 + (patient / 2)}"),
            string.Create(CultureInfo.InvariantCulture, $"chart-{patient}"));
    }

    public static async Task LoadAsync(HttpClient fhir, CancellationToken cancellation)
    {
        for (var patient = 0; patient < Count; patient++)
        {
            var (identifier, name, birthDate, id) = Of(patient);
            await PutAsync(id, System, identifier);
            // The same number given out by another clinic.
            await PutAsync(id + "-elsewhere", "https://south-clinic.example/patients", identifier);

            async Task PutAsync(string place, string system, string value)
            {
                var chart = new JsonObject
                {
                    ["resourceType"] = "Patient",
                    ["id"] = place,
                    ["active"] = true,
                    ["identifier"] = new JsonArray(new JsonObject { ["system"] = system, ["value"] = value }),
                    ["name"] = new JsonArray(new JsonObject { ["use"] = "official", ["family"] = name }),
                    ["birthDate"] = birthDate,
                };
                using var body = new StringContent(chart.ToJsonString());
                body.Headers.ContentType = new MediaTypeHeaderValue("application/fhir+json");
                using var answer = await fhir.PutAsync(new Uri("Patient/" + place, UriKind.Relative), body, cancellation);
                answer.EnsureSuccessStatusCode();
            }
        }
    }
}
