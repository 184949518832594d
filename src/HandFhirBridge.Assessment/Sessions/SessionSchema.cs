namespace HandFhirBridge.Assessment.Sessions;

/// <summary>The published JSON Schema (draft 2020-12) of the session document. It holds the structure; rules that look at several fields, and ids of the instrument, are checked on reading only.</summary>
public static class SessionSchema
{
    /// <summary>Value of <c>schemaVersion</c>.</summary>
    public const string Version = "1";

    /// <summary>Canonical address, also the value of <c>$schema</c> in a document.</summary>
    public const string Id = "https://handfhirbridge.example/schemas/session-1.json";

    /// <summary>Opens the schema as UTF-8 JSON. The caller disposes of the stream.</summary>
    public static Stream Open() => typeof(SessionSchema).Assembly.GetManifestResourceStream(ResourceName)!;

    private const string ResourceName = "HandFhirBridge.Assessment.Sessions.Schema.session-1.schema.json";
}
