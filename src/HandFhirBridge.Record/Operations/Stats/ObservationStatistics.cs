using System.Globalization;
using System.Net;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Record.Operations.Stats;

/// <summary><c>$stats</c> of Observation (R4 OperationDefinition/Observation-stats): figures of one subject's measurements, code by code.</summary>
/// <param name="session">Where it reads.</param>
/// <param name="options">Limits.</param>
/// <param name="baseUrl">This server's base.</param>
internal sealed class ObservationStatistics(RecordSession session, RecordOptions options, string baseUrl)
{
    private static readonly JsonSerializerOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Parameters with <c>statistics</c> and, where asked for, <c>source</c>, as JSON.</summary>
    /// <exception cref="RecordRefusal">422: the values of a code are in more than one unit.</exception>
    public string Run(StatsRequest request)
    {
        var measured = new Measurements(session, options, baseUrl, request).Find();
        var answer = new Parameters();
        foreach (var code in measured)
        {
            if (!request.Statistics.All(s => s.Counts))
            {
                DemandOneUnit(code);
            }

            answer.Add("statistics", Statistics(request, code));
        }

        var json = JsonNode.Parse(FhirJsonSerializer.Default.SerializeToString(answer))!;
        var sources = measured.SelectMany(m => m.Values).OrderByDescending(v => v.At ?? long.MinValue).Select(v => v.Source.Id!).Distinct();
        foreach (var id in sources.Take(request.Limit ?? int.MaxValue))
        {
            // As it is stored, in the very characters of its numbers.
            json["parameter"]!.AsArray().Add(new JsonObject { ["name"] = "source", ["resource"] = JsonNode.Parse(session.Read("Observation", id)!.Json!) });
        }

        return json.ToJsonString(Options);
    }

    // Nothing here converts units, and a mean of seconds and minutes is no time at all.
    private static void DemandOneUnit(MeasuredCode measured)
    {
        var units = measured.Values.Select(v => v.Quantity.Code!).Distinct().Order(StringComparer.Ordinal).ToList();
        if (units.Count > 1)
        {
            throw new RecordRefusal(
                HttpStatusCode.UnprocessableEntity,
                OperationOutcome.IssueType.BusinessRule,
                $"The values of {Name(measured.Code)} are in {units.Count} units ({string.Join(", ", units)}), and are not calculated together. Ask for a time in which they have one, or for count and total-count alone.");
        }
    }

    private static Observation Statistics(StatsRequest request, MeasuredCode measured)
    {
        var figures = new Figures(measured, request.Low);
        var times = measured.Values.Select(v => v.At).OfType<long>().Order().ToList();
        return new()
        {
            Status = ObservationStatus.Final,
            Code = measured.Code,
            Subject = new(request.Subject),
            Effective = request.Period ?? (times.Count > 0 ? new Period(Moment(times[0]), Moment(times[^1])) : null),
            Component = [.. request.Statistics.SelectMany(figures.Of)],
            Note = [.. Notes(measured).Select(n => new Annotation { Text = n })],
        };
    }

    private static IEnumerable<string> Notes(MeasuredCode measured)
    {
        if (measured.LeftOut.Count > 0)
        {
            var reasons = string.Join("; ", measured.LeftOut.Select(l => string.Create(CultureInfo.InvariantCulture, $"{l.Value} {l.Key}")));
            yield return $"{measured.LeftOut.Values.Sum()} of {measured.Total} measurements are left out of every figure but total-count: {reasons}. The figures say nothing about them.";
        }

        if (measured.Errors > 0)
        {
            yield return $"{measured.Errors} entered in error, not counted.";
        }

        if (measured.Values.Count(v => v.Source.Status == ObservationStatus.Preliminary) is > 0 and var preliminary)
        {
            yield return $"{preliminary} of {measured.Values.Count} values are preliminary.";
        }
    }

    private static FhirDateTime Moment(long ticks) => new(new DateTimeOffset(ticks, TimeSpan.Zero));

    private static string Name(CodeableConcept code) => code.Coding.Count > 0 ? $"{code.Coding[0].System}|{code.Coding[0].Code}" : code.Text ?? "a code";
}
