using System.Security.Cryptography;

namespace HandFhirBridge.Delivery.Tests.Authorization;

/// <summary>A folder of freshly made signing keys that is removed with the test.</summary>
internal sealed class KeyFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("hfb-keys-").FullName;

    public KeyFolder WithRsa(string id, int bits = 2048)
    {
        using var key = RSA.Create(bits);
        File.WriteAllText(System.IO.Path.Combine(Path, id + ".pem"), key.ExportPkcs8PrivateKeyPem());
        return this;
    }

    public KeyFolder WithEc(string id, ECCurve? curve = null)
    {
        using var key = ECDsa.Create(curve ?? ECCurve.NamedCurves.nistP384);
        File.WriteAllText(System.IO.Path.Combine(Path, id + ".pem"), key.ExportPkcs8PrivateKeyPem());
        return this;
    }

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
