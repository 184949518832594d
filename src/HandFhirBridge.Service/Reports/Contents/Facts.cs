using System.Globalization;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping.Narratives;
using HandFhirBridge.Service.Output;

namespace HandFhirBridge.Service.Reports.Contents;

/// <summary>Who, when, where and by whom.</summary>
internal static class Facts
{
    public static Points Of(SessionReport report) => new([.. Items(report)]);

    private static IEnumerable<Point> Items(SessionReport report)
    {
        yield return new("Patient", string.Create(
            CultureInfo.InvariantCulture,
            $"{report.FamilyName}, born {report.BirthDate:yyyy-MM-dd}, {report.AgeInYears} years old on the day; identifier {report.Patient.Value} ({report.Patient.System})"));
        yield return new("Tested", $"{PlainWords.Moment(report.StartedAt)} to {report.EndedAt.ToString("HH:mm", CultureInfo.InvariantCulture)} at {report.ClinicName ?? report.Site}");
        yield return new("By", $"{report.Performer}, {Words.Of(report.PerformerRole)}");
        if (report.Order is { } order)
        {
            yield return new("Order", order.Value);
        }

        yield return new("Handedness", $"{PlainWords.Handedness(report.Dominance)} ({Words.Of(report.Dominance.HowKnown)}){Quotient(report.Dominance)}");
        yield return new("Norm for", Group(report));
    }

    private static string Quotient(Dominance dominance) => dominance.LateralityQuotient is { } measured
        ? string.Create(CultureInfo.InvariantCulture, $"; laterality quotient {measured} (from \u2212100, all left, to +100, all right)")
        : "";

    private static string Group(SessionReport report)
    {
        var sex = report.SexForNorm switch { SexForNorm.Female => "women", SexForNorm.Male => "men", _ => "women and men, none applied" };
        var ages = report.Rows.SelectMany(r => r.Norms).Select(n => string.Create(CultureInfo.InvariantCulture, $"{n.AgeMin} to {n.AgeMax} years")).Distinct().ToList();
        return ages.Count == 0 ? $"{sex}; none covers this patient" : $"{sex}, {string.Join(" and ", ages)}, by hand role";
    }
}
