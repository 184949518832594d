using System.Collections.Concurrent;
using System.Net;
using System.Net.Http.Headers;
using System.Text;

namespace HandFhirBridge.Outcomes.Tests.Gather;

/// <summary>A server as a script: each address has an answer, or one for each time it is asked. What is asked is kept.</summary>
internal sealed class ScriptedServer : HttpMessageHandler
{
    private readonly Dictionary<string, Queue<Func<HttpResponseMessage>>> answers = new(StringComparer.Ordinal);

    public ConcurrentQueue<string> Asked { get; } = new();

    /// <summary>The answer to an address (path and query, percent signs decoded); the last one given is repeated.</summary>
    public ScriptedServer On(string address, string body, int status = 200, params (string Name, string Value)[] headers)
    {
        if (!answers.TryGetValue(address, out var queue))
        {
            answers[address] = queue = new();
        }

        queue.Enqueue(() =>
        {
            var response = new HttpResponseMessage((HttpStatusCode)status) { Content = new StringContent(body, Encoding.UTF8, "application/fhir+json") };
            foreach (var (name, value) in headers)
            {
                (name == "Content-Location" ? (HttpHeaders)response.Content.Headers : response.Headers).Add(name, value);
            }

            return response;
        });
        return this;
    }

    public ScriptedServer Forget(string address)
    {
        answers.Remove(address);
        return this;
    }

    protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var address = Uri.UnescapeDataString(request.RequestUri!.PathAndQuery);
        Asked.Enqueue(request.Method == HttpMethod.Get ? address : $"{request.Method} {address}");
        if (!answers.TryGetValue(address, out var queue))
        {
            return Task.FromResult(new HttpResponseMessage(HttpStatusCode.NotFound) { Content = new StringContent("") });
        }

        return Task.FromResult((queue.Count > 1 ? queue.Dequeue() : queue.Peek())());
    }
}
