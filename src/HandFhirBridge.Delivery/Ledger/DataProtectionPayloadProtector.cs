using Microsoft.AspNetCore.DataProtection;

namespace HandFhirBridge.Delivery.Ledger;

/// <summary>Seals with ASP.NET Core Data Protection. Whoever loses its keys loses the payloads: back them up with the ledger, apart from it.</summary>
/// <param name="provider">Gives the keys; the composition root says where they lie.</param>
public sealed class DataProtectionPayloadProtector(IDataProtectionProvider provider) : IPayloadProtector
{
    private readonly IDataProtector protector = provider.CreateProtector("HandFhirBridge.Ledger.Payload", "v1");

    /// <inheritdoc/>
    public string Scheme => "data-protection-1";

    /// <inheritdoc/>
    public byte[] Protect(byte[] plain) => protector.Protect(plain);

    /// <inheritdoc/>
    public byte[] Unprotect(byte[] sealedValue) => protector.Unprotect(sealedValue);
}
