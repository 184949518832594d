using System.Collections.Frozen;
using HandFhirBridge.Fhir.Mapping;

namespace HandFhirBridge.Outcomes.Deidentification;

/// <summary>
/// All that may leave, by resource type. What is not named here is removed, so that nothing leaves because nobody thought of it. Resources
/// of other types are withheld: devices, practitioners, provenance and set-up answers name people, places and things. What is left claims no
/// profile, as elements that our profiles ask for are gone.
/// </summary>
internal static class AllowedElements
{
    /// <summary>UCUM's code system; the others are those of the terminologies in use and of FHIR itself.</summary>
    private static readonly FrozenSet<string> Systems = new[]
    {
        "http://unitsofmeasure.org", "http://snomed.info/sct", "http://loinc.org", "http://hl7.org/fhir/sid/icd-10", "http://hl7.org/fhir/sid/icd-10-cm",
        "http://hl7.org/fhir/sid/icd-9-cm", "http://hl7.org/fhir/sid/icf", "http://www.ama-assn.org/go/cpt", "http://www.nlm.nih.gov/research/umls/rxnorm",
    }.ToFrozenSet(StringComparer.Ordinal);

    private static readonly Allowed Concept = Allowed.Of(("coding", new(Treatment.Coding, Allowed.Of(("system", Treatment.System), ("code", Treatment.Code)).Elements)));

    private static readonly Allowed Quantity = Allowed.Of(("value", Treatment.Number), ("comparator", Treatment.Word), ("system", Treatment.System), ("code", Treatment.Code));

    private static readonly Allowed Reference = Allowed.Of(("reference", Treatment.Reference));

    private static readonly Allowed Period = Allowed.Of(("start", Treatment.Date), ("end", Treatment.Date));

    private static readonly Allowed Extension = new(Treatment.Extension, Allowed.Of(
        ("valueCode", Treatment.Word), ("valueDecimal", Treatment.Number), ("valuePositiveInt", Treatment.Number), ("valueBoolean", Treatment.Truth),
        ("valueReference", Reference)).Elements);

    private static readonly Allowed Component = Allowed.Of(
        ("code", Concept), ("valueQuantity", Quantity), ("valueCodeableConcept", Concept), ("dataAbsentReason", Concept), ("interpretation", Concept));

    private static readonly Allowed ReferenceRange = Allowed.Of(
        ("low", Quantity), ("high", Quantity), ("type", Concept), ("appliesTo", Concept), ("age", Treatment.Ages), ("extension", Extension));

    /// <summary>A span of ages.</summary>
    public static Allowed Ages { get; } = Allowed.Of(("low", Quantity), ("high", Quantity));

    /// <summary>By resource type.</summary>
    public static FrozenDictionary<string, Allowed> ByType { get; } = new Dictionary<string, Allowed>
    {
        ["Observation"] = Resource(
            ("status", Treatment.Word), ("category", Concept), ("code", Concept), ("subject", Reference), ("effectiveDateTime", Treatment.Date),
            ("valueQuantity", Quantity), ("valueCodeableConcept", Concept), ("dataAbsentReason", Concept), ("interpretation", Concept), ("bodySite", Concept),
            ("referenceRange", ReferenceRange), ("hasMember", Reference), ("derivedFrom", Reference), ("component", Component), ("extension", Extension)),
        ["DiagnosticReport"] = Resource(
            ("status", Treatment.Word), ("category", Concept), ("code", Concept), ("subject", Reference), ("effectiveDateTime", Treatment.Date),
            ("effectivePeriod", Period), ("result", Reference), ("extension", Extension)),
        ["Patient"] = Resource(
            ("active", Treatment.Truth), ("gender", Treatment.Word), ("birthDate", Treatment.Date), ("deceasedBoolean", Treatment.Truth), ("deceasedDateTime", Treatment.Date),
            ("link", Allowed.Of(("other", Reference), ("type", Treatment.Word)))),
        ["Condition"] = Resource(
            ("clinicalStatus", Concept), ("verificationStatus", Concept), ("category", Concept), ("severity", Concept), ("code", Concept), ("bodySite", Concept),
            ("subject", Reference), ("onsetDateTime", Treatment.Date), ("abatementDateTime", Treatment.Date), ("recordedDate", Treatment.Date)),
    }.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Parts of the norm's extension that may leave; its citation is text and may not.</summary>
    public static FrozenSet<string> PartsOfNorm { get; } =
        new[] { "normSet", "version", "evidence", "demonstrationOnly", "mean", "standardDeviation" }.ToFrozenSet(StringComparer.Ordinal);

    /// <summary>True for a code system that tells nothing of a clinic.</summary>
    public static bool IsCommon(string system) =>
        Systems.Contains(system) || system.StartsWith("http://terminology.hl7.org/CodeSystem/", StringComparison.Ordinal)
        || system.StartsWith("http://hl7.org/fhir/", StringComparison.Ordinal) && !system.Contains("/sid/", StringComparison.Ordinal) || IsOwn(system);

    /// <summary>True for the address of a definition of ours.</summary>
    public static bool IsOwn(string canonical) =>
        canonical.StartsWith(Canonicals.Base + "/", StringComparison.Ordinal)
        && canonical[(Canonicals.Base.Length + 1)..].Split('/') is ["CodeSystem" or "StructureDefinition", var id] && id.StartsWith("hfb-", StringComparison.Ordinal) && HarmlessText.IsPart(id);

    private static Allowed Resource(params (string Name, Allowed What)[] elements) =>
        Allowed.Of([("resourceType", Treatment.Word), ("id", Treatment.Id), ("identifier", Treatment.Identifier), .. elements]);
}
