namespace HandFhirBridge.Service.Intake;

/// <summary>Bytes already read, followed by the rest of the stream they came from. The stream is not closed.</summary>
internal sealed class ReplayStream(ReadOnlyMemory<byte> head, Stream rest) : Stream
{
    private ReadOnlyMemory<byte> _head = head;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override int Read(Span<byte> buffer)
    {
        var replayed = Replay(buffer);
        return replayed > 0 ? replayed : rest.Read(buffer);
    }

    public override Task<int> ReadAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) =>
        ReadAsync(buffer.AsMemory(offset, count), cancellationToken).AsTask();

    public override async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default)
    {
        var replayed = Replay(buffer.Span);
        return replayed > 0 ? replayed : await rest.ReadAsync(buffer, cancellationToken);
    }

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    private int Replay(Span<byte> buffer)
    {
        var count = Math.Min(buffer.Length, _head.Length);
        _head.Span[..count].CopyTo(buffer);
        _head = _head[count..];
        return count;
    }
}
