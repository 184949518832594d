namespace HandFhirBridge.Service.Tests.Intake;

/// <summary>The same bytes over and over, made as they are read.</summary>
internal sealed class RepeatingStream(byte[] part, int times) : Stream
{
    private long _position;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => (long)part.Length * times;

    public override long Position
    {
        get => _position;
        set => throw new NotSupportedException();
    }

    public override int Read(byte[] buffer, int offset, int count)
    {
        var at = (int)(_position % part.Length);
        var length = (int)Math.Min(Math.Min(count, part.Length - at), Length - _position);
        part.AsSpan(at, length).CopyTo(buffer.AsSpan(offset));
        _position += length;
        return length;
    }

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
}
