using System.Text.Json;
using Microsoft.AspNetCore.Authentication;

namespace HandFhirBridge.Service.Charts.Smart;

/// <summary>What a sign-in remembers, in the protected state on the way and in the protected cookie after it.</summary>
internal static class SmartItems
{
    public const string Server = "server";
    public const string Issuer = "issuer";
    public const string Authorize = "authorize";
    public const string Token = "token";
    public const string Launch = "launch";
    public const string Scope = "scope";
    public const string Patient = "patient";
    public const string Report = "report";

    /// <summary>Takes out what only the sign-in needed: a cookie is small.</summary>
    public static void Clear(AuthenticationProperties properties)
    {
        foreach (var name in new[] { Issuer, Authorize, Token, Launch, Scope, "code_verifier" })
        {
            properties.Items.Remove(name);
        }
    }

    /// <summary>Id of the one report in <c>fhirContext</c> (SMART App Launch 2.2); null if it names none or several.</summary>
    public static string? ReportOf(JsonElement answer)
    {
        const string type = "DiagnosticReport/";
        if (!answer.TryGetProperty("fhirContext", out var context) || context.ValueKind != JsonValueKind.Array)
        {
            return null;
        }

        var reports = context.EnumerateArray()
            .Select(item => item.ValueKind == JsonValueKind.Object && item.TryGetProperty("reference", out var reference) ? reference.GetString() : null)
            .OfType<string>()
            .Where(reference => reference.StartsWith(type, StringComparison.Ordinal))
            .ToList();
        return reports is [var only] ? only[type.Length..] : null;
    }
}
