using System.Collections.Frozen;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Service.Reports.Printing;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Pipeline;

/// <summary>The clinics this service works for.</summary>
/// <param name="settings">Settings; with no sites in them every site id is accepted.</param>
public sealed class SiteRegister(BridgeSettings settings)
{
    private readonly FrozenSet<string> known = settings.Sites.Select(s => s.Id).ToFrozenSet(StringComparer.Ordinal);

    private readonly FrozenDictionary<string, string> targets = settings.Sites.ToFrozenDictionary(s => s.Id, s => s.Target, StringComparer.Ordinal);

    private readonly FrozenDictionary<string, PaperSize> papers = settings.Sites.ToFrozenDictionary(s => s.Id, s => s.Paper, StringComparer.Ordinal);

    /// <summary>Name of the target that a site's sessions go to, and its reports are read from.</summary>
    public string TargetOf(string site) => targets.GetValueOrDefault(site, AcceptedSession.DefaultTarget);

    /// <summary>Paper its reports are printed on.</summary>
    public PaperSize PaperOf(string site) => papers.GetValueOrDefault(site, PaperSize.A4);

    /// <summary>Null if the session's site is served here, else what is wrong.</summary>
    public Problem? Check(Session session)
    {
        ArgumentNullException.ThrowIfNull(session);
        return known.Count == 0 || known.Contains(session.Site)
            ? null
            : ServiceProblems.UnknownSite.At(
                "$.site",
                $"The site \"{session.Site}\" is not one this service works for.",
                session.Site,
                $"Use one of {string.Join(", ", known.Order(StringComparer.Ordinal))}, or add the site to the settings.");
    }
}
