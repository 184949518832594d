using System.Text.Json;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>The answer to one request, or that there was none.</summary>
/// <param name="Kind">What is known.</param>
/// <param name="Status">HTTP status; null without an answer.</param>
/// <param name="Resource">FHIR resource in the body; undefined if the body is empty or something else.</param>
/// <param name="RetryAt">When the target asks to be tried again; null if it does not.</param>
/// <param name="Note">What else to say of it, without patient data: kind of body, of failure.</param>
public sealed record TargetAnswer(AnswerKind Kind, int? Status, JsonElement Resource, DateTimeOffset? RetryAt, string? Note)
{
    /// <summary>Header <c>Location</c> of a create, relative or absolute; null without one.</summary>
    public string? Location { get; init; }

    /// <summary>True for a status from 200 to 299.</summary>
    public bool Succeeded => Status is >= 200 and <= 299;

    /// <summary>Type of the resource; null without one.</summary>
    public string? ResourceType => Resource.Text("resourceType");

    /// <summary>Issues of an OperationOutcome in the body.</summary>
    public IEnumerable<AnswerIssue> Issues => ResourceType == "OperationOutcome" ? AnswerIssue.Of(Resource) : [];

    /// <summary>Without an answer.</summary>
    public static TargetAnswer None(AnswerKind kind, string note) => new(kind, null, default, null, note);

    /// <summary>Status and note for people.</summary>
    public override string ToString() => Status is { } status ? $"HTTP {status}" + (Note is null ? "" : $", {Note}") : Note ?? Kind.ToString();

    /// <summary>Reads a body as a resource; anything else is undefined.</summary>
    internal static JsonElement Read(ReadOnlySpan<byte> body)
    {
        try
        {
            return !body.IsEmpty && JsonElement.Parse(body) is var resource && resource.IsObject() && resource.TryGetProperty("resourceType", out _) ? resource : default;
        }
        catch (JsonException)
        {
            // A page of HTML, or JSON cut off: no resource.
            return default;
        }
    }
}
