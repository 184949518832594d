using HandFhirBridge.Delivery.Authorization;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Service.Settings;

/// <summary>Wrong settings of the targets, one sentence for each.</summary>
internal static class TargetCheck
{
    public static IEnumerable<string> Find(BridgeSettings settings) =>
        Of("Target", settings.Target)
            .Concat(settings.Target.Name == AcceptedSession.DefaultTarget
                ? []
                : [$"Target:Name is \"{settings.Target.Name}\". Remove it: this target is the default one, and those in Targets have names."])
            .Concat(settings.Targets.SelectMany((target, n) => Further($"Targets:{n}", target)))
            .Concat(settings.Targets.GroupBy(t => t.Name, StringComparer.Ordinal).Where(g => g.Count() > 1)
                .Select(twice => $"The name \"{twice.Key}\" stands {twice.Count()} times in Targets. Names are unique."));

    private static IEnumerable<string> Further(string name, TargetSettings target)
    {
        if (target.Name is "" or AcceptedSession.DefaultTarget || !target.Name.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '.'))
        {
            yield return $"{name}:Name is \"{target.Name}\". Write a name of letters, digits, dots and hyphens other than {AcceptedSession.DefaultTarget}, by which Sites name it.";
        }

        if (target.BaseUrl is null)
        {
            yield return $"{name}:BaseUrl is missing. Write the FHIR base, for example https://fhir.clinic.example/r4.";
        }

        foreach (var fault in Of(name, target))
        {
            yield return fault;
        }
    }

    private static IEnumerable<string> Of(string name, TargetSettings target)
    {
        if (target.BaseUrl is { } url && (!Uri.TryCreate(url, UriKind.Absolute, out var uri) || uri.Scheme is not ("http" or "https")))
        {
            yield return $"{name}:BaseUrl is \"{url}\", which is not an http or https address. Write the FHIR base, for example https://fhir.clinic.example/r4.";
        }

        foreach (var fault in SignInCheck.Find(target.SignIn, $"{name}:SignIn", TimeProvider.System))
        {
            yield return fault;
        }

        if (target.EmbeddedPort is < 0 or > 65535)
        {
            yield return $"{name}:EmbeddedPort is {target.EmbeddedPort}. Write 0 for a free port, or 1 to 65535.";
        }

        if (target.Concurrency is < 1 or > 64)
        {
            yield return $"{name}:Concurrency is {target.Concurrency}. Write 1 to 64.";
        }

        if (target.DocumentType is not { Length: >= 3 and <= 9 } code || code[^2] != '-' || !code.Replace("-", "", StringComparison.Ordinal).All(char.IsAsciiDigit))
        {
            yield return $"{name}:DocumentType is \"{target.DocumentType}\", which is no LOINC code. Write for example 28578-3.";
        }

        if (!Enum.IsDefined(target.BestRung))
        {
            yield return $"{name}:BestRung is {target.BestRung}. Write {string.Join(", ", Enum.GetNames<Rung>())}, or 1 to 5.";
        }

        if (target.SessionsPerMinute is < 1 or > 6_000)
        {
            yield return $"{name}:SessionsPerMinute is {target.SessionsPerMinute}. Write 1 to 6000, or remove it for no limit.";
        }

        if (target.TimeoutSeconds is < 1 or > 600)
        {
            yield return $"{name}:TimeoutSeconds is {target.TimeoutSeconds}. Write 1 to 600.";
        }
    }
}
