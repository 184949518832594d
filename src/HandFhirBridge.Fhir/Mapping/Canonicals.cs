namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Canonical addresses of what the package <c>handfhirbridge.r4</c> defines. They name definitions and resolve nowhere: <c>.example</c> is reserved (RFC 2606).</summary>
public static class Canonicals
{
    /// <summary>Base of every address; also the name from which the namespace of resource ids is derived.</summary>
    public const string Base = "https://handfhirbridge.example/fhir";

    /// <summary>Profile of a counted trial.</summary>
    public const string Trial = Definitions + "hfb-trial";

    /// <summary>Profile of an attempt that does not count.</summary>
    public const string UncountedAttempt = Definitions + "hfb-uncounted-attempt";

    /// <summary>Profile of a total of one hand.</summary>
    public const string Total = Definitions + "hfb-total";

    /// <summary>Profile of the panel of one hand.</summary>
    public const string Panel = Definitions + "hfb-panel";

    /// <summary>Profile of the handedness.</summary>
    public const string Dominance = Definitions + "hfb-dominance";

    /// <summary>Profile of the set-up response.</summary>
    public const string SetupResponse = Definitions + "hfb-setup-response";

    /// <summary>Profile of the report.</summary>
    public const string Report = Definitions + "hfb-report";

    /// <summary>Profile of the provenance.</summary>
    public const string Provenance = Definitions + "hfb-provenance";

    /// <summary>Profile of a kit of materials.</summary>
    public const string Kit = Definitions + "hfb-kit";

    /// <summary>Profile of the software.</summary>
    public const string Software = Definitions + "hfb-software";

    /// <summary>Set-up Questionnaire with its version, as a QuestionnaireResponse names it.</summary>
    public const string SetupQuestionnaire = Base + "/Questionnaire/hfb-setup|0.1.0";

    /// <summary>Whole-session Questionnaire with its version, as a QuestionnaireResponse names it.</summary>
    public const string SessionQuestionnaire = Base + "/Questionnaire/hfb-session|0.1.0";

    internal const string Definitions = Base + "/StructureDefinition/";
}
