namespace HandFhirBridge.Delivery.Tests.Sharing;

/// <summary>The wire of an instance that dies over a write: nothing is heard of it again.</summary>
/// <param name="survives">Writes it lives through.</param>
/// <param name="reaches">Whether the write it dies over reaches the server.</param>
internal sealed class DyingWire(int survives, bool reaches) : DelegatingHandler(new SocketsHttpHandler())
{
    private readonly TaskCompletionSource dead = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private int writes;

    /// <summary>Completes at the instance's death.</summary>
    public Task Dead => dead.Task;

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        if (request.Method == HttpMethod.Get || Interlocked.Increment(ref writes) <= survives)
        {
            return await base.SendAsync(request, cancellationToken);
        }

        if (reaches)
        {
            (await base.SendAsync(request, CancellationToken.None)).Dispose();
        }

        dead.TrySetResult();
        await new TaskCompletionSource().Task;
        throw new InvalidOperationException("The dead do not speak.");
    }
}
