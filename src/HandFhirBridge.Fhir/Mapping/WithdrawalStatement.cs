using System.Text.Json;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>The document behind a withdrawal, as the session document is the one behind its results: what is withdrawn, why, by whom and when.</summary>
public static class WithdrawalStatement
{
    /// <summary>UTF-8 JSON; the same withdrawal gives the same bytes.</summary>
    public static ReadOnlyMemory<byte> Write(Withdrawal withdrawal)
    {
        ArgumentNullException.ThrowIfNull(withdrawal);
        return JsonSerializer.SerializeToUtf8Bytes(new
        {
            kind = "withdrawal",
            site = withdrawal.Session.Site,
            sessionId = withdrawal.Session.SessionId,
            revision = withdrawal.Revision,
            withdraws = new { revision = withdrawal.Withdrawn, document = $"sha-256:{withdrawal.DocumentSha256}" },
            reason = withdrawal.Reason,
            by = withdrawal.By,
            at = withdrawal.At,
        });
    }
}
