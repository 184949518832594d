using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Faults.Tests.Servers;

/// <summary>A request that arrived whole.</summary>
internal sealed class Sent(HttpRequest request, string path, string body)
{
    private static readonly string[] Passed = ["Accept", "If-Match", "If-None-Exist", "If-None-Match", "Prefer"];

    public string Method { get; } = request.Method;

    /// <summary>Below the base, with the query.</summary>
    public string Path { get; } = path;

    public string Body { get; } = body;

    public IReadOnlyList<(string Name, string Value)> Headers { get; } =
        [.. Passed.Where(request.Headers.ContainsKey).Select(name => (name, request.Headers[name].ToString()))];

    public bool IsWrite => Method is "POST" or "PUT";

    public bool IsTransaction => Method == "POST" && Path.Length == 0;
}
