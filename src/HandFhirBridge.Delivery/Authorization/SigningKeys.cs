using System.Security.Cryptography;
using Microsoft.IdentityModel.Tokens;

namespace HandFhirBridge.Delivery.Authorization;

/// <summary>
/// The keys client assertions are signed with: RSA (RS384) or EC on P-384 (ES384), the two algorithms SMART App Launch 2.2
/// asks of clients. Read from a folder anew at each use, so that rotation needs no restart.
/// </summary>
/// <param name="directory">
/// Folder of PEM private keys: <c>KEYID.pem</c> may sign; <c>KEYID.next.pem</c> is published under the same id and does not sign
/// yet, so that authorization servers know it before it is used.
/// </param>
public sealed class SigningKeys(string directory)
{
    private const string Ending = ".pem";
    private const string NotYet = ".next" + Ending;

    /// <summary>The key that signs: the one whose id sorts last.</summary>
    /// <exception cref="SignInException">The folder is missing, empty, or holds a file that is no usable private key.</exception>
    public SigningCredentials Current() =>
        Files().FindLast(file => !file.EndsWith(NotYet, StringComparison.Ordinal)) is { } path
            ? Load(path)
            : throw new SignInException($"The folder {directory} holds only keys that do not sign yet. Rename KEYID{NotYet} to KEYID{Ending} once its public half is known.");

    /// <summary>The public halves of all keys as a JWK Set (RFC 7517), to be served without sign-in.</summary>
    /// <exception cref="SignInException">As <see cref="Current"/>.</exception>
    public IReadOnlyDictionary<string, object> PublicKeySet() =>
        new Dictionary<string, object> { ["keys"] = Files().Select(f => PublicHalf(Load(f))).ToList() };

    private List<string> Files()
    {
        var files = Directory.Exists(directory)
            ? Directory.GetFiles(directory, "*" + Ending).Order(StringComparer.Ordinal).ToList()
            : [];
        return files.Count > 0
            ? files
            : throw new SignInException($"The folder {directory} holds no signing key. Put an RSA or P-384 private key there as KEYID.pem.");
    }

    private static SigningCredentials Load(string path)
    {
        var pem = File.ReadAllText(path);
        var id = Path.GetFileName(path)[..^(path.EndsWith(NotYet, StringComparison.Ordinal) ? NotYet : Ending).Length];
        try
        {
            return pem.Contains("EC PRIVATE KEY", StringComparison.Ordinal) || IsEc(pem)
                ? new(Ec(pem, id), SecurityAlgorithms.EcdsaSha384)
                : new(Rsa(pem, id), SecurityAlgorithms.RsaSha384);
        }
        catch (Exception broken) when (broken is CryptographicException or ArgumentException)
        {
            throw new SignInException($"The file {path} is not a private key in PEM form that can sign RS384 or ES384.", broken);
        }
    }

    private static bool IsEc(string pem)
    {
        using var ec = ECDsa.Create();
        try
        {
            ec.ImportFromPem(pem);
            return true;
        }
        catch (Exception other) when (other is CryptographicException or ArgumentException)
        {
            return false;
        }
    }

    private static ECDsaSecurityKey Ec(string pem, string id)
    {
        var key = ECDsa.Create();
        key.ImportFromPem(pem);
        return key.KeySize == 384
            ? new(key) { KeyId = id }
            : throw new CryptographicException("ES384 needs a key on P-384.");
    }

    private static RsaSecurityKey Rsa(string pem, string id)
    {
        var key = RSA.Create();
        key.ImportFromPem(pem);
        return key.KeySize >= 2048
            ? new(key) { KeyId = id }
            : throw new CryptographicException("RS384 needs a key of at least 2048 bits.");
    }

    // Only these members: a converted key would carry its private ones as well.
    private static Dictionary<string, object> PublicHalf(SigningCredentials credentials)
    {
        var common = new Dictionary<string, object>
        {
            ["kid"] = credentials.Key.KeyId,
            ["use"] = "sig",
            ["alg"] = credentials.Algorithm,
            ["key_ops"] = new[] { "verify" },
        };
        if (credentials.Key is ECDsaSecurityKey ec)
        {
            var point = ec.ECDsa.ExportParameters(includePrivateParameters: false).Q;
            common["kty"] = "EC";
            common["crv"] = "P-384";
            common["x"] = Base64UrlEncoder.Encode(point.X);
            common["y"] = Base64UrlEncoder.Encode(point.Y);
        }
        else
        {
            var rsa = ((RsaSecurityKey)credentials.Key).Rsa.ExportParameters(includePrivateParameters: false);
            common["kty"] = "RSA";
            common["n"] = Base64UrlEncoder.Encode(rsa.Modulus);
            common["e"] = Base64UrlEncoder.Encode(rsa.Exponent);
        }

        return common;
    }
}
