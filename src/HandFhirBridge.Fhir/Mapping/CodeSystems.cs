namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Addresses of code systems: our own, declared as local, and those of the standards.</summary>
public static class CodeSystems
{
    /// <summary>What is measured: one code a task and hand, total and hand, panel, report.</summary>
    public const string Measure = Own + "measure";

    /// <summary>Tasks without a hand.</summary>
    public const string Task = Own + "task";

    /// <summary>Materials.</summary>
    public const string Material = Own + "material";

    /// <summary>Left and right.</summary>
    public const string Hand = Own + "hand";

    /// <summary>Dominant and non-dominant.</summary>
    public const string HandRole = Own + "hand-role";

    /// <summary>Handedness, for sites without a SNOMED CT licence.</summary>
    public const string Handedness = Own + "handedness";

    /// <summary>What a component says.</summary>
    public const string Component = Own + "component";

    /// <summary>Departures from the standard.</summary>
    public const string Departure = Own + "departure";

    /// <summary>Precautions.</summary>
    public const string Precaution = Own + "precaution";

    /// <summary>Answers about glasses and precautions.</summary>
    public const string Setup = Own + "setup";

    /// <summary>Capacities of who tested.</summary>
    public const string PerformerRole = Own + "performer-role";

    /// <summary>How handedness became known.</summary>
    public const string DominanceSource = Own + "dominance-source";

    /// <summary>Grades of evidence for a norm; used for display only, the code stands in an extension.</summary>
    public const string Evidence = Own + "evidence";

    /// <summary>SNOMED CT.</summary>
    public const string Snomed = "http://snomed.info/sct";

    /// <summary>WHO International Classification of Functioning, Disability and Health.</summary>
    public const string Icf = "http://hl7.org/fhir/sid/icf";

    /// <summary>UCUM.</summary>
    public const string Ucum = "http://unitsofmeasure.org";

    /// <summary>R4 administrative-gender; here the sex of a norm group.</summary>
    public const string Gender = "http://hl7.org/fhir/administrative-gender";

    /// <summary>Observation categories of HL7.</summary>
    public const string ObservationCategory = "http://terminology.hl7.org/CodeSystem/observation-category";

    /// <summary>Observation categories of US Core.</summary>
    public const string UsCoreCategory = "http://hl7.org/fhir/us/core/CodeSystem/us-core-category";

    /// <summary>Sections of a diagnostic service (HL7 v2 table 0074).</summary>
    public const string DiagnosticService = "http://terminology.hl7.org/CodeSystem/v2-0074";

    /// <summary>Interpretations (HL7 v3).</summary>
    public const string Interpretation = "http://terminology.hl7.org/CodeSystem/v3-ObservationInterpretation";

    /// <summary>Why a value is missing.</summary>
    public const string AbsentReason = "http://terminology.hl7.org/CodeSystem/data-absent-reason";

    /// <summary>What a reference range means.</summary>
    public const string RangeMeaning = "http://terminology.hl7.org/CodeSystem/referencerange-meaning";

    /// <summary>Parts an agent of a provenance played.</summary>
    public const string ParticipantType = "http://terminology.hl7.org/CodeSystem/provenance-participant-type";

    /// <summary>Operations on data (HL7 v3).</summary>
    public const string DataOperation = "http://terminology.hl7.org/CodeSystem/v3-DataOperation";

    /// <summary>Reasons of acts (HL7 v3); HTEST marks test health data.</summary>
    public const string ActReason = "http://terminology.hl7.org/CodeSystem/v3-ActReason";

    private const string Own = Canonicals.Base + "/CodeSystem/hfb-cs-";
}
