using System.Text.Json.Nodes;

namespace HandFhirBridge.Delivery.Tests.Servers;

/// <summary>A request about one resource or type, as a scripted target sees it.</summary>
/// <param name="Method">HTTP method.</param>
/// <param name="Path">Below the FHIR base: <c>Type</c> or <c>Type/id</c>.</param>
/// <param name="Query">With its question mark; empty without one.</param>
/// <param name="Body">Resource; null without one.</param>
/// <param name="IfMatch">Header; null without it.</param>
/// <param name="IfNoneExist">Header; null without it.</param>
public sealed record SentRequest(string Method, string Path, string Query, JsonObject? Body, string? IfMatch, string? IfNoneExist)
{
    public string Type => Path.Split('/')[0];

    public string? Id => Path.Split('/') is [_, var id, ..] ? id : null;
}
