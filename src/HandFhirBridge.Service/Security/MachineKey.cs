using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;

namespace HandFhirBridge.Service.Security;

/// <summary>
/// A key for a machine, as the key file holds it. The key itself is <c>hfb.NAME.SECRET</c> with 32 random bytes as secret,
/// so that a plain SHA-256 of it cannot be searched through; it is shown once, when it is made.
/// </summary>
/// <param name="Name">Who uses it; letters, digits and hyphens.</param>
/// <param name="Scopes">What it may do.</param>
/// <param name="Sha256">SHA-256 of the key, lower-case hexadecimal.</param>
public sealed record MachineKey(string Name, ImmutableArray<string> Scopes, string Sha256)
{
    /// <summary>What every key begins with; tells a key from a token.</summary>
    public const string Prefix = "hfb.";

    /// <summary>A new key and its entry.</summary>
    public static (string Key, MachineKey Entry) Create(string name, ImmutableArray<string> scopes)
    {
        var key = $"{Prefix}{name}.{Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(32))}";
        return (key, Of(key, name, scopes));
    }

    /// <summary>The entry of a key that is there already.</summary>
    public static MachineKey Of(string key, string name, ImmutableArray<string> scopes) => new(name, scopes, Hash(key));

    /// <summary>True if <paramref name="key"/> is this one; takes the same time whether or not.</summary>
    public bool Matches(string key) =>
        CryptographicOperations.FixedTimeEquals(Encoding.ASCII.GetBytes(Hash(key)), Encoding.ASCII.GetBytes(Sha256));

    private static string Hash(string key) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(key)));
}
