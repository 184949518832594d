using System.Globalization;
using System.Text.Json;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Identity;

/// <summary>Compares one chart with what the session says of the patient. Messages hold nothing from the chart.</summary>
internal static class ChartCheck
{
    /// <summary>Uses of a name that say it is not the person's present or former family name by law (R4 name-use).</summary>
    private static readonly string[] NamesNotCompared = ["old", "temp", "nickname", "anonymous"];

    /// <summary>What forbids writing into this chart; null if nothing does.</summary>
    public static Problem? Find(SearchHit chart, PatientIdentity patient, DateOnly today) =>
        Life(chart.Resource) ?? BirthDate(chart.Resource, patient) ?? Name(chart.Resource, patient, today);

    /// <summary>True if the chart itself marks the identifier as one no longer in use.</summary>
    public static bool IdentifierEnded(SearchHit chart, BusinessIdentifier identifier, DateOnly today) =>
        chart.Identifiers.Where(i => i.Text("system") == identifier.System && i.Text("value") == identifier.Value)
            .All(i => i.Text("use") == "old" || Ended(i, today));

    private static Problem? Life(JsonElement chart)
    {
        if (chart.Flag("active") == false)
        {
            return IdentityProblems.Inactive.At("$.patient.identifier", "The only chart with this identifier is not active.");
        }

        return chart.Flag("deceasedBoolean") == true || chart.TryGetProperty("deceasedDateTime", out _)
            ? IdentityProblems.Deceased.At("$.patient.identifier", "The chart with this identifier says that the patient has died.")
            : null;
    }

    private static Problem? BirthDate(JsonElement chart, PatientIdentity patient)
    {
        if (!DateOnly.TryParseExact(chart.Text("birthDate"), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var born))
        {
            return IdentityProblems.NoBirthDate.At("$.patient.birthDate", "The chart holds no birth date with year, month and day.");
        }

        return born == patient.BirthDate
            ? null
            : IdentityProblems.OtherBirthDate.At("$.patient.birthDate", "The birth date of the session differs from that of the chart.");
    }

    private static Problem? Name(JsonElement chart, PatientIdentity patient, DateOnly today) =>
        chart.Objects("name")
            .Where(name => !NamesNotCompared.Contains(name.Text("use")) && (name.Text("use") == "maiden" || !Ended(name, today)))
            .Any(name => FamilyName.Agrees(name.Text("family"), patient.FamilyName))
            ? null
            : IdentityProblems.OtherFamilyName.At("$.patient.familyName", "The family name of the session is none of those in the chart.");

    /// <summary>True if a period ended before today; one that ends in a year or month without a day ends with it.</summary>
    private static bool Ended(JsonElement element, DateOnly today) =>
        element.Object("period").Text("end") is { Length: >= 4 } end
        && string.CompareOrdinal(end, today.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)[..Math.Min(end.Length, 10)]) < 0;
}
