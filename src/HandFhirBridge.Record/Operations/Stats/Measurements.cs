using System.Globalization;
using HandFhirBridge.Record.Search;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Operations.Stats;

/// <summary>Finds the measurements that <c>$stats</c> is asked about, those of panels among them.</summary>
/// <param name="session">Where it reads.</param>
/// <param name="options">Page sizes, which are not used: all measurements count.</param>
/// <param name="baseUrl">This server's base.</param>
/// <param name="request">What is asked for.</param>
internal sealed class Measurements(RecordSession session, RecordOptions options, string baseUrl, StatsRequest request)
{
    private readonly CodeGroups groups = new();
    private readonly List<(string Name, CodeableConcept Code, Action<MeasuredCode> Take)> parts = [];
    private readonly HashSet<string> seen = [];

    /// <summary>One for each code asked for, then one for each code that their panels lead to.</summary>
    public IReadOnlyList<MeasuredCode> Find()
    {
        var asked = new List<MeasuredCode>();
        foreach (var coding in request.Codes)
        {
            var own = new MeasuredCode(new() { Coding = [coding] });
            var before = parts.Count;
            foreach (var observation in Observations(coding))
            {
                Take(observation, coding, own);
            }

            // A panel that has no value of its own is nothing to count.
            if (own.Total > 0 || parts.Count == before)
            {
                asked.Add(own);
            }
        }

        return [.. asked, .. parts.GroupBy(p => groups.Of(p.Name)).Select(Part)];
    }

    private static MeasuredCode Part(IEnumerable<(string Name, CodeableConcept Code, Action<MeasuredCode> Take)> group)
    {
        var measured = new MeasuredCode(group.First().Code);
        foreach (var (_, _, take) in group)
        {
            take(measured);
        }

        return measured;
    }

    // "this code in Observation.code and Observation.component.code"; latest first.
    private IEnumerable<Observation> Observations(Coding coding)
    {
        List<KeyValuePair<string, string>> parameters =
        [
            new("subject", Escaping.Escape(request.Subject)),
            new("combo-code", $"{Escaping.Escape(coding.System!)}|{Escaping.Escape(coding.Code!)}"),
        ];
        parameters.AddRange(request.Low is { } low ? [new("date", "ge" + Text(low))] : []);
        parameters.AddRange(request.High is { } high ? [new("date", "le" + Text(high))] : []);
        var query = new SearchQueryParser("Observation", lenient: false, options).Parse(parameters);
        var date = SearchParameters.Of("Observation")["date"];
        return new Searcher(session, baseUrl).All(query with { Sort = [(date, true)] }).Select(f => (Observation)f.Resource.Resource());
    }

    private void Take(Observation observation, Coding coding, MeasuredCode own)
    {
        var at = Span(observation)?.Low;
        foreach (var component in observation.Component.Where(c => Has(c.Code, coding)))
        {
            own.Take(observation, component.Value, component.ModifierExtension.Count > 0, at);
        }

        if (Has(observation.Code, coding))
        {
            if (IsMeasured(observation))
            {
                own.Take(observation, observation.Value, isModified: false, at);
            }

            Parts(observation, at);
        }
    }

    // "all values grouped by code for all the individual observations that are: 1) referenced in" hasMember "and 2) component observations".
    private void Parts(Observation panel, long? at)
    {
        foreach (var (i, component) in panel.Component.Index().Where(c => !IsAsked(c.Item.Code)))
        {
            Add($"{panel.Id}#{i}", component.Code, measured => measured.Take(panel, component.Value, component.ModifierExtension.Count > 0, at));
        }

        foreach (var member in panel.HasMember.Select(Member).OfType<Observation>())
        {
            var time = Span(member)?.Low ?? at;
            if (!IsAsked(member.Code) && IsMeasured(member))
            {
                Add(member.Id!, member.Code, measured => measured.Take(member, member.Value, isModified: false, time));
            }

            // Of a panel that is asked for itself, its own code leads to its parts.
            if (!IsAsked(member.Code) && seen.Add($"{member.Id}/parts"))
            {
                Parts(member, time);
            }
        }
    }

    private void Add(string place, CodeableConcept? code, Action<MeasuredCode> take)
    {
        if (code is not null && seen.Add(place))
        {
            parts.Add((groups.Add(code), code, take));
        }
    }

    // Of the same subject and within the time, as what is found by its code.
    private Observation? Member(ResourceReference reference)
    {
        var place = ReferenceText.Unversioned(ReferenceText.Relative(reference.Reference ?? "", baseUrl));
        return place.Split('/') is ["Observation", var id] && session.Read("Observation", id) is { Deleted: false } stored
            && stored.Resource() is Observation member && Local(member.Subject?.Reference) == Local(request.Subject) && IsWithin(member) ? member : null;
    }

    private string Local(string? reference) => ReferenceText.Unversioned(ReferenceText.Relative(reference ?? "", baseUrl));

    private bool IsWithin(Observation member) => Span(member) is not { } span
        || ((request.Low is null || span.High >= request.Low) && (request.High is null || span.Low <= request.High));

    private bool IsAsked(CodeableConcept? code) => request.Codes.Any(c => Has(code, c));

    private static bool Has(CodeableConcept? code, Coding coding) => code?.Coding.Any(c => c.System == coding.System && c.Code == coding.Code) == true;

    private static bool IsMeasured(Observation observation) =>
        observation.Value is not null || observation.DataAbsentReason is not null || (observation.Component.Count == 0 && observation.HasMember.Count == 0);

    private static DateSpan? Span(Observation observation) => observation.Effective switch
    {
        FhirDateTime { Value: { } time } => DateSpan.Parse(time),
        Instant { Value: { } instant } => new(instant.UtcTicks, instant.UtcTicks),
        Period period when DateSpan.Parse(period.Start ?? period.End ?? "") is { } from => new(from.Low, DateSpan.Parse(period.End ?? "")?.High ?? long.MaxValue),
        Timing timing => DateSpan.Parse(timing.Event.FirstOrDefault() ?? ""),
        _ => null,
    };

    private static string Text(long ticks) => new DateTime(ticks, DateTimeKind.Utc).ToString("yyyy-MM-ddTHH:mm:ss.fffffffZ", CultureInfo.InvariantCulture);
}
