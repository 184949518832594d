using System.Diagnostics;
using DuckDB.NET.Data;
using HandFhirBridge.Outcomes.Summaries;

namespace HandFhirBridge.Benchmarks;

/// <summary>A summary by task and hand role, against what an analyst would write by hand for its means over the same files.</summary>
internal static class SummaryRatio
{
    internal static Ratio Measure(int runs, int persons)
    {
        using var trials = new MillionTrials(persons);
        var question = SummaryCommand.Questions.First().Question;
        double Ours()
        {
            var start = Stopwatch.GetTimestamp();
            using var rows = trials.Open();
            Summarizer.Answer(rows, question);
            return Stopwatch.GetElapsedTime(start).TotalMilliseconds;
        }

        double Theirs()
        {
            var start = Stopwatch.GetTimestamp();
            using var rows = new DuckDBConnection("DataSource=:memory:");
            rows.Open();
            using var command = rows.CreateCommand();
            command.CommandText = $"""
                SELECT task, hand_role, count(DISTINCT source || patient_key), count(*), avg(seconds) FILTER (outcome = 'completed'), stddev_samp(seconds) FILTER (outcome = 'completed'),
                    quantile_cont(seconds, [0.25, 0.5, 0.75]) FILTER (outcome = 'completed'), avg(z), stddev_samp(z), quantile_cont(z, [0.25, 0.5, 0.75])
                FROM read_parquet('{trials.TrialFiles}', hive_partitioning = true) GROUP BY task, hand_role ORDER BY task, hand_role
                """;
            using var reader = command.ExecuteReader();
            while (reader.Read())
            {
                reader.GetValue(4);
            }

            return Stopwatch.GetElapsedTime(start).TotalMilliseconds;
        }

        Ours();
        Theirs();
        var (ours, other) = Alternating.Measure(runs, Ours, Theirs);
        return new(
            "summary", ours, other, $"ms a question to {persons * 42} trials",
            "one DuckDB statement by hand over the same Parquet files: persons, means, SDs and quantiles alone, without survival and changes");
    }
}
