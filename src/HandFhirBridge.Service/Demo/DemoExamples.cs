namespace HandFhirBridge.Service.Demo;

/// <summary>The example clinics and sessions that come with the program.</summary>
public static class DemoExamples
{
    private static readonly string Root = Path.Combine(AppContext.BaseDirectory, "examples");

    /// <summary>Folder of the session documents.</summary>
    public static string Sessions => Path.Combine(Root, "sessions");

    /// <summary>FHIR Bundle of the invented patients, clinics and therapists.</summary>
    public static string Patients => Path.Combine(Root, "patients.json");
}
