using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;
using System.Text;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>UUIDs of version 5 (RFC 9562, section 5.5): the same namespace and name give the same id on every machine. The framework makes versions 4 and 7 only.</summary>
public static class NameBasedUuid
{
    /// <summary>Namespace of names that are URLs (RFC 9562, section 6.6).</summary>
    public static Guid UrlNamespace { get; } = new("6ba7b811-9dad-11d1-80b4-00c04fd430c8");

    /// <summary>Namespace of names that are fully qualified domain names (RFC 9562, section 6.6).</summary>
    public static Guid DnsNamespace { get; } = new("6ba7b810-9dad-11d1-80b4-00c04fd430c8");

    /// <summary>Id of <paramref name="name"/>, taken as UTF-8, in <paramref name="nameSpace"/>.</summary>
    [SuppressMessage("Security", "CA5350", Justification = "RFC 9562 prescribes SHA-1 for version 5; it names, it does not protect.")]
    public static Guid Of(Guid nameSpace, string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        byte[] input = [.. nameSpace.ToByteArray(bigEndian: true), .. Encoding.UTF8.GetBytes(name)];
        Span<byte> hash = stackalloc byte[SHA1.HashSizeInBytes];
        SHA1.HashData(input, hash);
        hash[6] = (byte)((hash[6] & 0x0F) | 0x50);
        hash[8] = (byte)((hash[8] & 0x3F) | 0x80);
        return new Guid(hash[..16], bigEndian: true);
    }
}
