namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Addresses of the extensions that carry what R4 has no element for.</summary>
public static class Extensions
{
    /// <summary>Revision of the session, on the report and the set-up response; positiveInt.</summary>
    public const string SessionRevision = Canonicals.Definitions + "hfb-ext-session-revision";

    /// <summary>1-based place in the order in which all attempts of a session ran; positiveInt.</summary>
    public const string RunOrder = Canonicals.Definitions + "hfb-ext-run-order";

    /// <summary>Where the seconds come from; code, absent where there are none.</summary>
    public const string TimeSource = Canonicals.Definitions + "hfb-ext-time-source";

    /// <summary>How an attempt ended; code.</summary>
    public const string Outcome = Canonicals.Definitions + "hfb-ext-outcome";

    /// <summary>Why a counted trial carries no score; code.</summary>
    public const string NotJudged = Canonicals.Definitions + "hfb-ext-not-judged";

    /// <summary>The trial that counts in place of an attempt; Reference.</summary>
    public const string CountedTrial = Canonicals.Definitions + "hfb-ext-counted-trial";

    /// <summary>Side of a body site that is coded without one; code.</summary>
    public const string Laterality = Canonicals.Definitions + "hfb-ext-laterality";

    /// <summary>Norm set, source and evidence behind a reference range or report; complex.</summary>
    public const string NormSource = Canonicals.Definitions + "hfb-ext-norm-source";

    /// <summary>The conclusion in the performer's own words, and when they signed it, on the report; complex.</summary>
    public const string SignedConclusion = Canonicals.Definitions + "hfb-ext-signed-conclusion";

    /// <summary>R4's own reason for the status of a result or report (extension-event-statusReason); CodeableConcept.</summary>
    public const string StatusReason = "http://hl7.org/fhir/StructureDefinition/event-statusReason";

    /// <summary>R4's own link from a report to the set-up response (extension-workflow-supportingInfo).</summary>
    public const string SupportingInfo = "http://hl7.org/fhir/StructureDefinition/workflow-supportingInfo";
}
