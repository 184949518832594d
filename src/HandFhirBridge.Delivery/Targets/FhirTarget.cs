using System.Net.Http.Headers;
using HandFhirBridge.Delivery.Authorization;
using HandFhirBridge.Delivery.Ledger;
using Polly;
using Polly.CircuitBreaker;
using Polly.Timeout;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>One target: sends requests, and remembers what it can do and when it wants to be left alone.</summary>
public sealed class FhirTarget : IDisposable
{
    private static readonly MediaTypeWithQualityHeaderValue FhirJson = new("application/fhir+json");

    private readonly Func<HttpClient> client;
    private readonly ResiliencePipeline<TargetAnswer> pipeline;
    private readonly TimeProvider clock;
    private long pausedUntil;

    /// <summary>Over a client that signs in where that is needed.</summary>
    /// <param name="options">Checked settings.</param>
    /// <param name="client">Gives the client for a request.</param>
    /// <param name="clock">Gives the time.</param>
    /// <param name="randomness">From 0 up to 1, for the spread of waits.</param>
    /// <param name="knowledge">Keeps what is known of it beyond a restart; null forgets it.</param>
    /// <param name="instances">Keeps other instances apart that write to it; null if there are none.</param>
    public FhirTarget(
        TargetOptions options,
        Func<HttpClient> client,
        TimeProvider clock,
        Func<double> randomness,
        TargetKnowledgeFile? knowledge = null,
        IInstanceGate? instances = null)
    {
        ArgumentNullException.ThrowIfNull(options);
        Options = options;
        this.client = client;
        this.clock = clock;
        Base = new Uri(options.BaseUrl!.AbsoluteUri.TrimEnd('/') + "/");
        pipeline = TargetPipeline.Build(options, clock, randomness, duration => PauseUntil(clock.GetUtcNow() + duration));
        Contact = new(clock);
        Memory = new(this, clock, knowledge);
        Load = new(options.Concurrency, options.SessionsPerMinute, clock);
        SharedResources = new(instances, options.Name);
    }

    /// <summary>Settings.</summary>
    public TargetOptions Options { get; }

    /// <summary>Name in the ledger.</summary>
    public string Name => Options.Name;

    /// <summary>FHIR base with a slash at its end.</summary>
    public Uri Base { get; }

    /// <summary>What it declares and which rung holds.</summary>
    public TargetMemory Memory { get; }

    /// <summary>Keeps apart those who create what sessions share.</summary>
    public SharedResourceGate SharedResources { get; }

    /// <summary>Whether it answers.</summary>
    public TargetContact Contact { get; }

    /// <summary>What it is given at a time.</summary>
    public TargetLoad Load { get; }

    /// <summary>True while nothing should be sent: its circuit is open, or it asked for a rest.</summary>
    public bool IsPaused => clock.GetUtcNow().UtcTicks < Interlocked.Read(ref pausedUntil);

    /// <summary>Leaves the target alone until then.</summary>
    public void PauseUntil(DateTimeOffset time) => Interlocked.Exchange(ref pausedUntil, time.UtcTicks);

    /// <summary>Reads, with unknown search parameters refused where the target knows how (R4 search, section 3.1.1.4 "Handling Errors").</summary>
    /// <param name="address">Relative to the base, or absolute below it.</param>
    /// <param name="cancellation">Ends the wait.</param>
    public Task<TargetAnswer> GetAsync(string address, CancellationToken cancellation) => SendAsync(
        () =>
        {
            var request = new HttpRequestMessage(HttpMethod.Get, new Uri(Base, address));
            request.Headers.Add("Prefer", "handling=strict");
            return request;
        },
        cancellation);

    /// <summary>Posts a Bundle to the base.</summary>
    /// <param name="bundle">UTF-8 JSON.</param>
    /// <param name="cancellation">Ends the wait.</param>
    public Task<TargetAnswer> PostAsync(ReadOnlyMemory<byte> bundle, CancellationToken cancellation) =>
        SendAsync(() => Write(HttpMethod.Post, Base, bundle), cancellation);

    /// <summary>Asks which patients could be meant; changes nothing (R4 patient-operation-match.html).</summary>
    /// <param name="parameters">Parameters, UTF-8 JSON.</param>
    /// <param name="cancellation">Ends the wait.</param>
    public Task<TargetAnswer> MatchPatientAsync(byte[] parameters, CancellationToken cancellation) =>
        SendAsync(() => Write(HttpMethod.Post, new Uri(Base, "Patient/$match"), parameters), cancellation);

    /// <summary>Creates a resource; the target gives the id.</summary>
    /// <param name="type">Resource type.</param>
    /// <param name="resource">UTF-8 JSON without an id.</param>
    /// <param name="condition">Search by which the target finds one that is there already (<c>If-None-Exist</c>); null sends none.</param>
    /// <param name="cancellation">Ends the wait.</param>
    public Task<TargetAnswer> CreateAsync(string type, byte[] resource, string? condition, CancellationToken cancellation) => SendAsync(
        () =>
        {
            var request = Write(HttpMethod.Post, new Uri(Base, type), resource);
            if (condition is not null)
            {
                request.Headers.TryAddWithoutValidation("If-None-Exist", condition);
            }

            return request;
        },
        cancellation);

    /// <summary>Updates a resource where it lies, or creates it under an id of ours.</summary>
    /// <param name="type">Resource type.</param>
    /// <param name="id">Logical id.</param>
    /// <param name="resource">UTF-8 JSON with that id.</param>
    /// <param name="version">Version that is replaced (<c>If-Match</c>); null replaces any.</param>
    /// <param name="cancellation">Ends the wait.</param>
    public Task<TargetAnswer> UpdateAsync(string type, string id, byte[] resource, string? version, CancellationToken cancellation) => SendAsync(
        () =>
        {
            var request = Write(HttpMethod.Put, new Uri(Base, $"{type}/{id}"), resource);
            if (version is not null)
            {
                request.Headers.TryAddWithoutValidation("If-Match", $"W/\"{version}\"");
            }

            return request;
        },
        cancellation);

    /// <inheritdoc/>
    public void Dispose()
    {
        Memory.Dispose();
        SharedResources.Dispose();
    }

    private static HttpRequestMessage Write(HttpMethod method, Uri address, ReadOnlyMemory<byte> body) => new(method, address)
    {
        Content = new ReadOnlyMemoryContent(body) { Headers = { ContentType = new("application/fhir+json") } },
    };

    private async Task<TargetAnswer> SendAsync(Func<HttpRequestMessage> make, CancellationToken cancellation)
    {
        var answer = await AskAsync(make, cancellation);
        Contact.Saw(answer);
        return answer;
    }

    private async Task<TargetAnswer> AskAsync(Func<HttpRequestMessage> make, CancellationToken cancellation)
    {
        try
        {
            return await pipeline.ExecuteAsync(async token => await OnceAsync(make, token), cancellation);
        }
        catch (BrokenCircuitException)
        {
            return TargetAnswer.None(AnswerKind.NotSent, $"the target is left alone for {Options.BreakDuration.TotalSeconds:0} s after failures");
        }
        catch (SignInException failure)
        {
            return TargetAnswer.None(AnswerKind.NotSignedIn, failure.Message);
        }
        catch (TimeoutRejectedException)
        {
            return TargetAnswer.None(AnswerKind.NoAnswer, $"no answer within {Options.Timeout.TotalSeconds:0.#} s");
        }
        catch (HttpRequestException failure)
        {
            // The message may quote the address, and a search address names the patient: the kind of failure says enough.
            return TargetAnswer.None(
                TargetPipeline.NeverSent(failure) ? AnswerKind.NotSent : AnswerKind.NoAnswer, Words(failure.HttpRequestError));
        }
        catch (IOException failure)
        {
            return TargetAnswer.None(AnswerKind.NoAnswer, failure.GetType().Name);
        }
        catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
        {
            return TargetAnswer.None(AnswerKind.NoAnswer, "the connection was given up");
        }
    }

    private static string Words(HttpRequestError error) => error switch
    {
        HttpRequestError.Unknown => "the connection was lost",
        HttpRequestError.ConnectionError => "the connection failed: nothing accepts it at the address",
        HttpRequestError.NameResolutionError => "the connection failed: the host name is not known",
        HttpRequestError.SecureConnectionError => "the connection failed: no TLS, as with a certificate that is not trusted or has expired",
        _ => $"the connection failed: {error}",
    };

    private async Task<TargetAnswer> OnceAsync(Func<HttpRequestMessage> make, CancellationToken cancellation)
    {
        using var request = make();
        request.Headers.Accept.Add(FhirJson);
        foreach (var (name, value) in Options.Headers)
        {
            request.Headers.TryAddWithoutValidation(name, value);
        }

        using var response = await client().SendAsync(request, cancellation);
        var body = await response.Content.ReadAsByteArrayAsync(cancellation);
        var resource = TargetAnswer.Read(body);
        return new(
            AnswerKind.Answered,
            (int)response.StatusCode,
            resource,
            RetryAfter.Read(response.Headers, clock.GetUtcNow(), Options.RetryAfterCap),
            !resource.IsObject() ? $"{body.Length} bytes of {response.Content.Headers.ContentType?.MediaType ?? "no type"}" : null)
        {
            // Kept as text: a location that is no address is the server's fault and no reason to fail.
            Location = response.Headers.TryGetValues("Location", out var locations) ? locations.First() : null,
        };
    }
}
