using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Faults.Tests.Servers;

/// <summary>What a client gets.</summary>
internal sealed record Answer(int Status, string Body, string Type = "application/fhir+json", IReadOnlyList<(string Name, string Value)>? Headers = null)
{
    private static readonly string[] Passed = ["Location", "ETag", "Last-Modified"];

    /// <summary>The connection ends without one.</summary>
    public static Answer None { get; } = new(0, "");

    public static async Task<Answer> OfAsync(HttpResponseMessage answer)
    {
        var headers = answer.Headers.Concat(answer.Content.Headers).Where(h => Passed.Contains(h.Key)).Select(h => (h.Key, h.Value.First())).ToList();
        return new((int)answer.StatusCode, await answer.Content.ReadAsStringAsync(), Headers: headers);
    }

    public async Task WriteAsync(HttpContext context, Uri inner, string prefix)
    {
        if (Status == 0)
        {
            context.Abort();
            return;
        }

        context.Response.StatusCode = Status;
        foreach (var (name, value) in Headers ?? [])
        {
            context.Response.Headers[name] = Outside(value);
        }

        if (Body.Length > 0)
        {
            context.Response.ContentType = Type;
            await context.Response.WriteAsync(Outside(Body));
        }

        string Outside(string text) => text.Replace(inner.AbsoluteUri, inner.GetLeftPart(UriPartial.Authority) + prefix + "/", StringComparison.Ordinal);
    }
}
