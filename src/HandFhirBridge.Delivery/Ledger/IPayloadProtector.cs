namespace HandFhirBridge.Delivery.Ledger;

/// <summary>Seals what the ledger holds of patients.</summary>
public interface IPayloadProtector
{
    /// <summary>Name kept beside each sealed value, so that values sealed otherwise, or not at all, stay readable after a change.</summary>
    string Scheme { get; }

    /// <summary>Seals.</summary>
    byte[] Protect(byte[] plain);

    /// <summary>Unseals what <see cref="Protect"/> sealed.</summary>
    /// <exception cref="System.Security.Cryptography.CryptographicException">The key is not at hand, or the value was changed.</exception>
    byte[] Unprotect(byte[] sealedValue);
}
