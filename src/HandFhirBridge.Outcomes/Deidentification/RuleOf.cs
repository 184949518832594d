using System.Text.Json;
using HandFhirBridge.Outcomes.Gather.Reading;

namespace HandFhirBridge.Outcomes.Deidentification;

/// <summary>The paragraph by which an element is removed, for the count: told by its name and, for numbers of persons and ways of reaching them, by their kind.</summary>
internal static class RuleOf
{
    /// <summary>Paragraph of a removed element.</summary>
    /// <param name="name">Name of the element.</param>
    /// <param name="element">One of its values.</param>
    public static SafeHarborRule Removed(string name, JsonElement element) => name switch
    {
        "name" or "contact" or "performer" or "resultsInterpreter" or "asserter" or "recorder" or "generalPractitioner" or "maidenName" => SafeHarborRule.AName,
        "address" or "location" or "managingOrganization" or "position" => SafeHarborRule.BPlace,
        "birthDate" or "deceasedDateTime" or "issued" or "lastUpdated" or "effectiveInstant" or "effectiveTiming" or "onsetPeriod" or "onsetAge" => SafeHarborRule.CDate,
        "telecom" => Telecom(OwnResources.Text(element, "system")),
        "identifier" => Identifier(element),
        "serialNumber" or "udiCarrier" or "device" or "deviceName" or "lotNumber" => SafeHarborRule.MDevice,
        "url" or "source" or "implicitRules" or "reference" or "system" => SafeHarborRule.NWebAddress,
        "photo" or "media" => SafeHarborRule.QImage,
        _ => SafeHarborRule.ROther,
    };

    private static SafeHarborRule Telecom(string? system) => system switch
    {
        "fax" => SafeHarborRule.EFax,
        "email" => SafeHarborRule.FMail,
        "url" => SafeHarborRule.NWebAddress,
        _ => SafeHarborRule.DTelephone,
    };

    /// <summary>By the codes of HL7 table 0203; others count as (R).</summary>
    private static SafeHarborRule Identifier(JsonElement identifier) => Codes(identifier).Select(code => code switch
    {
        "SS" or "SB" => SafeHarborRule.GSocialSecurity,
        "MR" or "MRT" or "PI" or "PT" => SafeHarborRule.HMedicalRecord,
        "MB" or "MA" or "MC" or "HC" or "SN" => SafeHarborRule.IHealthPlan,
        "AN" or "ANON" or "BA" => SafeHarborRule.JAccount,
        "DL" or "MD" or "LN" or "RN" or "PPN" => SafeHarborRule.KLicense,
        "SNO" or "UDI" => SafeHarborRule.MDevice,
        _ => SafeHarborRule.ROther,
    }).FirstOrDefault(SafeHarborRule.ROther);

    private static IEnumerable<string> Codes(JsonElement identifier) =>
        identifier.ValueKind == JsonValueKind.Object && identifier.TryGetProperty("type", out var type) && type.ValueKind == JsonValueKind.Object
        && type.TryGetProperty("coding", out var codings) && codings.ValueKind == JsonValueKind.Array
            ? codings.EnumerateArray().Select(c => OwnResources.Text(c, "code")).OfType<string>()
            : [];
}
