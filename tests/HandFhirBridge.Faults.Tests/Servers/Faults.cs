using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Targets;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;

namespace HandFhirBridge.Faults.Tests.Servers;

/// <summary>Stands between the bridge and a record that behaves.</summary>
internal sealed class Faults(ServerKind kind, Random random)
{
    private const string Prefix = "/faulty";
    private readonly Lock gate = new();
    private int count;
    private int requests;
    private int orphans;

    /// <summary>Speaks to the record itself.</summary>
    public HttpClient Inner { get; set; } = null!;

    public int Count => count;

    public int Requests => requests;

    public int Orphans => orphans;

    public async Task PassAsync(HttpContext context, RequestDelegate next)
    {
        if (!context.Request.Path.StartsWithSegments(Prefix, StringComparison.Ordinal, out var path))
        {
            await next(context);
            return;
        }

        // The body whole, or nothing: half a request writes nothing on any server.
        using var reader = new StreamReader(context.Request.Body, Encoding.UTF8);
        var sent = new Sent(context.Request, path.Value!.TrimStart('/') + context.Request.QueryString, await reader.ReadToEndAsync(context.RequestAborted));
        Interlocked.Increment(ref requests);
        var gone = context.RequestAborted;
        // What was begun is ended, as on most servers, though nobody waits for the answer any more.
        context.RequestAborted = CancellationToken.None;
        var answer = await AnswerAsync(sent);
        if (gone.IsCancellationRequested && sent.IsWrite)
        {
            Interlocked.Increment(ref orphans);
        }

        await answer.WriteAsync(context, Inner.BaseAddress!, Prefix);
    }

    public void Met() => Interlocked.Increment(ref count);

    public bool Happens(double chance)
    {
        lock (gate)
        {
            return random.NextDouble() < chance;
        }
    }

    public int Next(int below)
    {
        lock (gate)
        {
            return random.Next(below);
        }
    }

    /// <summary>As the record answers.</summary>
    public async Task<Answer> AskAsync(Sent sent, string? body = null)
    {
        using var request = new HttpRequestMessage(new(sent.Method), new Uri(sent.Path, UriKind.Relative));
        if (sent.Body.Length > 0)
        {
            request.Content = new StringContent(body ?? sent.Body, Encoding.UTF8);
            request.Content.Headers.ContentType = new MediaTypeHeaderValue("application/fhir+json");
        }

        foreach (var (name, value) in sent.Headers)
        {
            request.Headers.TryAddWithoutValidation(name, value);
        }

        using var answer = await Inner.SendAsync(request);
        return await Answer.OfAsync(answer);
    }

    private async Task<Answer> AnswerAsync(Sent sent)
    {
        if (sent.Path == "metadata")
        {
            var statement = JsonNode.Parse((await AskAsync(sent)).Body)!;
            kind.Limit(statement);
            return new(200, statement.ToJsonString());
        }

        return kind.Behaviour switch
        {
            Behaviour.Slow => await SlowlyAsync(sent),
            Behaviour.Flaky => await FlakyAsync(sent),
            Behaviour.HalfStoring when sent.IsTransaction && Happens(0.7) => await HalfTransaction.StoreAsync(this, sent),
            Behaviour.Racing when sent.IsTransaction => await RacingCreates.StoreAsync(this, sent),
            _ => await AskAsync(sent),
        };
    }

    private async Task<Answer> SlowlyAsync(Sent sent)
    {
        Met();
        await Task.Delay(Pause());
        var answer = await AskAsync(sent);
        await Task.Delay(Next(sent.IsWrite ? 100 : 10));
        return answer;

        // Some writes are still to be made when the next process has long begun.
        int Pause() => !sent.IsWrite ? Next(10) : Happens(kind.Rung == Rung.SingleWrites ? 0.1 : 0.5) ? Next(2_500) : Next(50);
    }

    private async Task<Answer> FlakyAsync(Sent sent)
    {
        // A session of single writes has some thirty requests; it must get through now and then.
        if (!Happens(sent.IsTransaction ? 0.5 : 0.05))
        {
            return await AskAsync(sent);
        }

        Met();
        if (Happens(0.5))
        {
            await AskAsync(sent);
        }

        return Next(6) switch
        {
            0 => new(502, "<html>Bad gateway</html>", "text/html"),
            1 => new(503, ""),
            2 => new(500, """{"resourceType":"OperationOutcome","issue":[{"severity":"fatal","code":"exception"}]}"""),
            3 => new(504, "<html>Gateway timeout</html>", "text/html"),
            4 => new(408, ""),
            _ => Answer.None,
        };
    }
}
