using System.Net;
using System.Net.Http.Headers;
using System.Text.Json;

namespace HandFhirBridge.Outcomes.Gather.Reading;

/// <summary>Requests to one source: tried again where that may help, waiting as long as the server asks.</summary>
/// <param name="source">Where.</param>
/// <param name="options">Limits.</param>
/// <param name="clock">Gives the time and the waits.</param>
internal sealed class FhirRequests(GatherSource source, GatherOptions options, TimeProvider clock)
{
    public GatherSource Source => source;

    public GatherOptions Options => options;

    public TimeProvider Clock => clock;

    /// <summary>Where a link leads; it must be at this server.</summary>
    public Uri Follow(string link)
    {
        var address = new Uri(source.BaseUrl, link);
        return source.Owns(address) ? address : throw new GatherException(GatherProblems.LinkElsewhere.At(
            "", $"{source.Name} at {source.BaseUrl.Authority} gives a link to {address.Authority}.", address.Authority));
    }

    /// <summary>Sends until an answer comes that trying again would not change.</summary>
    /// <param name="make">Makes the request; called for each try.</param>
    /// <param name="client">The one that signs in, or the plain one.</param>
    /// <param name="cancellation">Ends it.</param>
    public async Task<HttpResponseMessage> SendAsync(Func<HttpRequestMessage> make, HttpClient client, CancellationToken cancellation)
    {
        for (var attempt = 1; ; attempt++)
        {
            using var request = make();
            using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
            limit.CancelAfter(options.Timeout);
            Exception? failure = null;
            try
            {
                var response = await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, limit.Token);
                if (!IsTransient(response.StatusCode) || attempt >= options.Tries)
                {
                    return response;
                }

                var wait = Wait(response, attempt);
                response.Dispose();
                await Task.Delay(wait, clock, cancellation);
                continue;
            }
            catch (HttpRequestException lost)
            {
                failure = lost;
            }
            catch (OperationCanceledException late) when (!cancellation.IsCancellationRequested)
            {
                failure = late;
            }

            if (attempt >= options.Tries)
            {
                // The cause may quote the address, which can name patients: the kind of failure says enough.
                throw new GatherException(GatherProblems.NotReached.At("", $"{source.Name} at {source.BaseUrl.Authority} does not answer."), failure);
            }

            await Task.Delay(Pause(attempt), clock, cancellation);
        }
    }

    /// <summary>Reads JSON.</summary>
    /// <exception cref="GatherException">The answer is a refusal or no JSON.</exception>
    public async Task<(JsonDocument Json, DateTimeOffset? Date)> GetJsonAsync(Uri address, CancellationToken cancellation)
    {
        using var response = await SendAsync(() => Get(address, "application/fhir+json"), source.Client, cancellation);
        Demand(response, address);
        return (await ReadAsync(response, cancellation), response.Headers.Date);
    }

    public async Task<JsonDocument> ReadAsync(HttpResponseMessage response, CancellationToken cancellation)
    {
        try
        {
            using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
            limit.CancelAfter(options.Timeout);
            await using var body = await response.Content.ReadAsStreamAsync(limit.Token);
            return await JsonDocument.ParseAsync(body, cancellationToken: limit.Token);
        }
        catch (JsonException broken)
        {
            throw NotUnderstood("an answer that is not JSON", broken);
        }
        catch (Exception lost) when (IsLost(lost, cancellation))
        {
            throw new GatherException(GatherProblems.NotReached.At("", $"The answer of {source.Name} broke off."), lost);
        }
    }

    /// <summary>True if a body broke off or stalled, and nobody wanted it to end.</summary>
    public static bool IsLost(Exception failure, CancellationToken cancellation) =>
        failure is HttpRequestException or IOException || (failure is OperationCanceledException && !cancellation.IsCancellationRequested);

    public void Demand(HttpResponseMessage response, Uri address)
    {
        if (!response.IsSuccessStatusCode)
        {
            throw new GatherException((IsTransient(response.StatusCode) ? GatherProblems.NotReached : GatherProblems.Refused).At(
                "", $"{source.Name} answers {(int)response.StatusCode} to a request for {address.AbsolutePath}.", $"{(int)response.StatusCode}"));
        }
    }

    public GatherException NotUnderstood(string what, Exception? cause = null) =>
        new(GatherProblems.NotUnderstood.At("", $"{source.Name} at {source.BaseUrl.Authority} gave {what}."), cause);

    public static HttpRequestMessage Get(Uri address, string accept, string? prefer = null)
    {
        var request = new HttpRequestMessage(HttpMethod.Get, address) { Headers = { Accept = { new MediaTypeWithQualityHeaderValue(accept) } } };
        if (prefer is not null)
        {
            request.Headers.Add("Prefer", prefer);
        }

        return request;
    }

    /// <summary>How long the server asks to wait, within limits; else the given time.</summary>
    public TimeSpan Asked(HttpResponseMessage response, TimeSpan otherwise)
    {
        var asked = response.Headers.RetryAfter?.Delta ?? (response.Headers.RetryAfter?.Date - clock.GetUtcNow()) ?? otherwise;
        return asked < TimeSpan.Zero ? TimeSpan.Zero : asked > options.LongestPause ? options.LongestPause : asked;
    }

    private TimeSpan Wait(HttpResponseMessage response, int attempt) => Asked(response, Pause(attempt));

    private TimeSpan Pause(int attempt) => options.Pause * Math.Pow(2, attempt - 1);

    private static bool IsTransient(HttpStatusCode status) =>
        status is HttpStatusCode.RequestTimeout or HttpStatusCode.TooManyRequests || ((int)status is >= 500 and not 501);
}
