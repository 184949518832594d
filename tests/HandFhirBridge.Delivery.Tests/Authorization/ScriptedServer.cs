using System.Net;
using System.Text;

namespace HandFhirBridge.Delivery.Tests.Authorization;

/// <summary>Answers requests by a script and keeps them.</summary>
internal sealed class ScriptedServer(params Func<HttpRequestMessage, HttpResponseMessage>[] script) : HttpMessageHandler
{
    private readonly Queue<Func<HttpRequestMessage, HttpResponseMessage>> answers = new(script);

    public List<(Uri? Uri, string? Authorization, string Body)> Asked { get; } = [];

    public static HttpResponseMessage Json(HttpStatusCode status, string body) =>
        new(status) { Content = new StringContent(body, Encoding.UTF8, "application/json") };

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var body = request.Content is null ? "" : await request.Content.ReadAsStringAsync(cancellationToken);
        Asked.Add((request.RequestUri, request.Headers.Authorization?.ToString(), body));
        return answers.Dequeue()(request);
    }
}
