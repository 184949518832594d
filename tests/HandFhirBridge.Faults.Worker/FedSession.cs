using System.Globalization;
using System.Text.Json;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Faults.Worker;

/// <summary>A mapped session in a file: what stands between validation and the ledger, so that a worker starts without a validator.</summary>
internal sealed record FedSession(
    string Site, string SessionId, int Revision, byte[] Document, byte[] Bundle, string System, string Value, string FamilyName, DateOnly BirthDate)
{
    public static string PathOf(string folder, int number) => Path.Combine(folder, number.ToString("00000", CultureInfo.InvariantCulture) + ".json");

    public static FedSession Of(AcceptedSession session)
    {
        var (key, patient) = (session.Key, session.Patient);
        return new(
            key.Site, key.SessionId, key.Revision, session.Document.ToArray(), session.Bundle.ToArray(),
            patient.Identifier.System, patient.Identifier.Value, patient.FamilyName, patient.BirthDate);
    }

    public AcceptedSession ToAccept() => new(
        new(Site, SessionId, Revision), Document, Bundle, new(new(System, Value), FamilyName, BirthDate));

    public void Write(string folder, int number) => File.WriteAllBytes(PathOf(folder, number), JsonSerializer.SerializeToUtf8Bytes(this));

    /// <summary>Null where the feed ends.</summary>
    public static FedSession? Read(string folder, int number) =>
        File.Exists(PathOf(folder, number)) ? JsonSerializer.Deserialize<FedSession>(File.ReadAllBytes(PathOf(folder, number))) : null;
}
