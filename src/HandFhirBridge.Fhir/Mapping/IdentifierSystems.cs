namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Numberings under which our resources are found again. They are searched by on a server before anything is written.</summary>
public static class IdentifierSystems
{
    /// <summary>Session, in the tag of the Provenance: <c>site/sessionId</c>.</summary>
    public const string Session = Base + "session";

    /// <summary>Report: <c>site/sessionId</c>.</summary>
    public const string Report = Base + "report";

    /// <summary>Set-up response: <c>site/sessionId</c>.</summary>
    public const string SetupResponse = Base + "setup-response";

    /// <summary>Handedness: <c>site/sessionId</c>.</summary>
    public const string Dominance = Base + "dominance";

    /// <summary>Panel: <c>site/sessionId/hand</c>.</summary>
    public const string Panel = Base + "panel";

    /// <summary>Total: <c>site/sessionId/total/hand</c>.</summary>
    public const string Total = Base + "total";

    /// <summary>Counted trial: <c>site/sessionId/task/hand</c>.</summary>
    public const string Trial = Base + "trial";

    /// <summary>Attempt that does not count: <c>site/sessionId/task/hand/n</c>, n its 1-based place among the attempts of this task and hand.</summary>
    public const string Attempt = Base + "attempt";

    /// <summary>Kit: <c>site/serial number</c>, or <c>site/name</c> where it has none.</summary>
    public const string Kit = Base + "kit";

    /// <summary>Software: its version.</summary>
    public const string Software = Base + "software";

    /// <summary>Clinic that is not in the site directory: the site's id.</summary>
    public const string Site = Base + "site";

    /// <summary>Name from which the id of a Provenance is derived (R4 gives it no identifier): <c>site/sessionId/revision</c>.</summary>
    public const string Provenance = Base + "provenance";

    /// <summary>Report written as a document, one in each revision: <c>site/sessionId/revision</c>.</summary>
    public const string Document = Base + "document";

    /// <summary>Beginning of all of them.</summary>
    public const string Base = "https://handfhirbridge.example/identifier/";
}
