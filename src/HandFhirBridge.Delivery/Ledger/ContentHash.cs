using System.Security.Cryptography;

namespace HandFhirBridge.Delivery.Ledger;

/// <summary>Names the content of a session document (SHA-256, FIPS 180-4).</summary>
public static class ContentHash
{
    /// <summary>Lower-case hexadecimal digits, 64 of them.</summary>
    public static string Of(ReadOnlyMemory<byte> document) => Convert.ToHexStringLower(SHA256.HashData(document.Span));
}
