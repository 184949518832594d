namespace HandFhirBridge.Service.Tests.Intake;

/// <summary>A disk that fails when read.</summary>
internal sealed class FailingStream : MemoryStream
{
    public override int Read(Span<byte> buffer) => throw new IOException("The disk failed.");

    public override ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default) =>
        throw new IOException("The disk failed.");
}
