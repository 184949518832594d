using System.Net;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Service.Cli;

namespace HandFhirBridge.Service.Settings;

/// <summary>Refuses to start half configured: finds every setting that is wrong, not only the first.</summary>
public static class SettingsCheck
{
    /// <summary>Throws with one sentence a wrong setting.</summary>
    /// <exception cref="CommandFailedException">Some setting is wrong.</exception>
    public static void Demand(BridgeSettings settings)
    {
        var wrong = Find(settings).ToList();
        if (wrong.Count > 0)
        {
            throw new CommandFailedException(string.Join(Environment.NewLine, wrong));
        }
    }

    /// <summary>One sentence for each wrong setting, naming it, its value and the remedy.</summary>
    public static IEnumerable<string> Find(BridgeSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return Listening(settings).Concat(Watching(settings)).Concat(Security(settings)).Concat(LedgerCheck.Find(settings)).Concat(TargetCheck.Find(settings)).Concat(ChartCheck.Find(settings)).Concat(Groups(settings)).Concat(Sites(settings)).Concat(Errors(settings));
    }

    /// <summary>The same for what only the service needs, and commands do not.</summary>
    public static IEnumerable<string> ToServe(BridgeSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        if (!settings.Demonstration && !settings.Security.AnySignIn)
        {
            yield return "No way to sign in is set. Set Security:KeyFile (make a key with: keys add) or Security:Authority, or run with --demonstration on this machine only.";
        }
    }

    private static IEnumerable<string> Listening(BridgeSettings settings)
    {
        if (!Uri.TryCreate(settings.Listen, UriKind.Absolute, out var listen) || listen.Scheme is not ("http" or "https"))
        {
            yield return $"Listen is \"{settings.Listen}\", which is not an http or https address. Write for example http://127.0.0.1:8090.";
        }
        else if (!IsLoopback(listen) && !settings.Security.AnySignIn)
        {
            yield return $"Listen is \"{settings.Listen}\", which others can reach, and no sign-in is set. Listen on 127.0.0.1, or set Security:Authority or Security:KeyFile.";
        }
    }

    private static IEnumerable<string> Groups(BridgeSettings settings)
    {
        if (settings.Outcomes.SmallestGroup < 1)
        {
            yield return $"Outcomes:SmallestGroup is {settings.Outcomes.SmallestGroup}; at least 1 is needed, and 5 is usual.";
        }
    }

    private static IEnumerable<string> Watching(BridgeSettings settings)
    {
        if (settings.Telemetry.OtlpEndpoint is { } endpoint && !(endpoint.IsAbsoluteUri && endpoint.Scheme is "http" or "https"))
        {
            yield return $"Telemetry:OtlpEndpoint is \"{endpoint.OriginalString}\", which is not an http or https address. Write the collector's, for example http://127.0.0.1:4317.";
        }
    }

    private static IEnumerable<string> Security(BridgeSettings settings)
    {
        if (settings.Security.Authority is { } authority && !authority.IsAbsoluteUri)
        {
            yield return $"Security:Authority is \"{authority}\", which is not an absolute address. Write the issuer, for example https://login.clinic.example.";
        }

        if (settings.Security.Authority is not null && string.IsNullOrEmpty(settings.Security.Audience))
        {
            yield return "Security:Audience is missing. Write the audience that tokens for this service name; without it tokens meant for others would do.";
        }

        if (settings.Security.KeyFile is { } file && !File.Exists(file))
        {
            yield return $"Security:KeyFile {file} does not exist. Make the first key with: keys add NAME --file {file}.";
        }
    }

    private static IEnumerable<string> Sites(BridgeSettings settings)
    {
        for (var i = 0; i < settings.Sites.Count; i++)
        {
            var site = settings.Sites[i];
            if (site.Id.Length == 0 || site.Name.Length == 0)
            {
                yield return $"Sites:{i} lacks an Id or a Name. Write both.";
            }

            if (site.IdentifierSystem is null != site.IdentifierValue is null)
            {
                yield return $"Sites:{i} ({site.Id}) has half an identifier. Write IdentifierSystem and IdentifierValue, or neither.";
            }
        }

        foreach (var site in settings.Sites.Where(s => s.Target != AcceptedSession.DefaultTarget && settings.Targets.All(t => t.Name != s.Target)))
        {
            yield return $"The site \"{site.Id}\" has Target \"{site.Target}\", which is not in Targets. Write the Name of one of them, or remove it to deliver to Target.";
        }

        foreach (var twice in settings.Sites.GroupBy(s => s.Id, StringComparer.Ordinal).Where(g => g.Count() > 1))
        {
            yield return $"The site id \"{twice.Key}\" stands {twice.Count()} times in Sites. Ids are unique.";
        }
    }

    private static IEnumerable<string> Errors(BridgeSettings settings)
    {
        for (var i = 0; i < settings.MeasurementErrors.Count; i++)
        {
            var error = settings.MeasurementErrors[i];
            if (error.Sem is null == (error.StandardDeviation is null || error.Icc is null))
            {
                yield return $"MeasurementErrors:{i} ({error.Subject}) needs either Sem, or StandardDeviation and Icc.";
            }

            if (error.Sem is <= 0 || error.StandardDeviation is <= 0 || error.Icc is <= 0 or >= 1)
            {
                yield return $"MeasurementErrors:{i} ({error.Subject}) has a number that cannot be: Sem and StandardDeviation are above 0, Icc lies between 0 and 1.";
            }

            if (error.Level is not (90 or 95))
            {
                yield return $"MeasurementErrors:{i} ({error.Subject}) has Level {error.Level}. Write 90 or 95.";
            }

            if (error.Source.Length == 0 || error.Population.Length == 0 || error.Subject.Length == 0)
            {
                yield return $"MeasurementErrors:{i} lacks Subject, Population or Source. A threshold without its source is not used.";
            }
        }
    }

    private static bool IsLoopback(Uri address) =>
        address.Host == "localhost" || (IPAddress.TryParse(address.Host.Trim('[', ']'), out var ip) && IPAddress.IsLoopback(ip));
}
