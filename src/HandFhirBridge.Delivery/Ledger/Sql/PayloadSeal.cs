using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Delivery.Ledger.Sql;

/// <summary>Seals and unseals what concerns the patient, with the scheme written beside it; without a protector nothing is sealed.</summary>
internal sealed class PayloadSeal(IPayloadProtector? protector)
{
    public string? Scheme => protector?.Scheme;

    /// <summary>Tells one patient from another without naming either: a digest of the identifier.</summary>
    public static string KeyOf(PatientIdentity patient) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(patient.Identifier.ToString())));

    public byte[] Seal(ReadOnlyMemory<byte> plain) => protector is null ? plain.ToArray() : protector.Protect(plain.ToArray());

    public byte[] Seal(PatientIdentity patient) => Seal(JsonSerializer.SerializeToUtf8Bytes(patient));

    public byte[]? Seal(string? text) => text is null ? null : Seal(Encoding.UTF8.GetBytes(text));

    public byte[] Open(string? scheme, byte[] value, string what)
    {
        if (scheme is null)
        {
            return value;
        }

        try
        {
            return scheme == Scheme ? protector!.Unprotect(value) : throw new CryptographicException($"Sealed as {scheme}.");
        }
        catch (CryptographicException failure)
        {
            throw new LedgerException(LedgerProblems.Sealed.At("Ledger", $"What is held of {what} cannot be unsealed."), failure);
        }
    }

    public LedgerPayload Open(PayloadRow row, SessionKey key)
    {
        var patient = JsonSerializer.Deserialize<PatientIdentity>(Open(row.Scheme, row.Patient, key.ToString()))!;
        return new(Open(row.Scheme, row.Document, key.ToString()), Open(row.Scheme, row.Bundle, key.ToString()), patient);
    }

    /// <summary>A row of the table of payloads.</summary>
    internal sealed class PayloadRow
    {
        public string? Scheme { get; set; }

        public byte[] Document { get; set; } = [];

        public byte[] Bundle { get; set; } = [];

        public byte[] Patient { get; set; } = [];
    }
}
