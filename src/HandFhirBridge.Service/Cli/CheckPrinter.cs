using System.Text.Json;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Pipeline;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Service.Cli;

/// <summary>Prints the verdict on each session.</summary>
/// <param name="output">Where it goes.</param>
internal abstract class CheckPrinter(TextWriter output)
{
    protected TextWriter Output { get; } = output;

    public static CheckPrinter For(CheckFormat format, TextWriter output) => format switch
    {
        CheckFormat.Json => new JsonLines(output),
        CheckFormat.Outcome => new OneOutcome(output),
        _ => new Sentences(output),
    };

    public abstract void Print(SourcePlace place, Outcome<PreparedSession> prepared);

    public abstract void End(int count, int refused);

    private static Dictionary<string, int> Resources(PreparedSession session) => session.Bundle.Entry
        .GroupBy(e => e.Resource?.TypeName ?? "", StringComparer.Ordinal)
        .OrderBy(g => g.Key, StringComparer.Ordinal)
        .ToDictionary(g => g.Key, g => g.Count());

    private sealed class Sentences(TextWriter output) : CheckPrinter(output)
    {
        public override void Print(SourcePlace place, Outcome<PreparedSession> prepared)
        {
            var verdict = prepared.Value is { } session
                ? $"would send {session.Scored.Session.Key} revision {session.Scored.Session.Revision}: {string.Join(", ", Resources(session).Select(r => $"{r.Value} {r.Key}"))}{(session.Scored.Demonstration ? " [DEMONSTRATION]" : "")}"
                : "refused";
            Output.WriteLine($"{place}: {verdict}");
            foreach (var problem in prepared.Problems)
            {
                ProblemText.Write(Output, problem);
            }
        }

        public override void End(int count, int refused) =>
            Output.WriteLine($"{count} checked, {count - refused} would be sent, {refused} refused.");
    }

    private sealed class JsonLines(TextWriter output) : CheckPrinter(output)
    {
        public override void Print(SourcePlace place, Outcome<PreparedSession> prepared) => Output.WriteLine(JsonSerializer.Serialize(
            new
            {
                place.Source,
                place.Line,
                Session = prepared.Value?.Scored.Session.Key,
                Accepted = prepared.Value is not null,
                Resources = prepared.Value is { } session ? Resources(session) : null,
                Problems = prepared.Problems.Select(ProblemJson.Of),
            },
            JsonText.Compact));

        public override void End(int count, int refused)
        {
            // The lines say it all; a summary would be one more kind of line.
        }
    }

    private sealed class OneOutcome(TextWriter output) : CheckPrinter(output)
    {
        private readonly List<Problem> problems = [];

        public override void Print(SourcePlace place, Outcome<PreparedSession> prepared) =>
            problems.AddRange(prepared.Problems.Select(p => p.Place is null ? p with { Place = place } : p));

        public override void End(int count, int refused) =>
            Output.WriteLine(FhirJsonSerializer.Default.SerializeToString(OutcomeResource.Of(problems), pretty: true));
    }
}
