using System.Buffers.Binary;
using System.Security.Cryptography;

namespace HandFhirBridge.Fhir.Validation.Remembered;

/// <summary>SHA-256 of a written shape. Two shapes with the same key are taken for the same shape.</summary>
internal readonly record struct ShapeKey(UInt128 First, UInt128 Second)
{
    /// <summary>Bytes of a key as stored.</summary>
    internal const int Length = SHA256.HashSizeInBytes;

    internal static ShapeKey Of(ReadOnlySpan<byte> shape)
    {
        Span<byte> hash = stackalloc byte[Length];
        SHA256.HashData(shape, hash);
        return Read(hash);
    }

    /// <summary>The key as stored.</summary>
    internal byte[] ToBytes()
    {
        var stored = new byte[Length];
        BinaryPrimitives.WriteUInt128BigEndian(stored, First);
        BinaryPrimitives.WriteUInt128BigEndian(stored.AsSpan(Length / 2), Second);
        return stored;
    }

    /// <summary>A key from its stored bytes.</summary>
    internal static ShapeKey Read(ReadOnlySpan<byte> stored) =>
        new(BinaryPrimitives.ReadUInt128BigEndian(stored), BinaryPrimitives.ReadUInt128BigEndian(stored[(Length / 2)..]));
}
