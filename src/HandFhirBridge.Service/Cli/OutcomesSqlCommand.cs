using System.CommandLine;
using HandFhirBridge.Outcomes.Rows;
using HandFhirBridge.Outcomes.Views;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Outcomes;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>outcomes sql</c>: SQL over the rows of the gathered set, answered by the embedded engine.</summary>
internal static class OutcomesSqlCommand
{
    public static Command Create(CommandTerminal terminal)
    {
        var config = CommonOptions.Config();
        var statement = new Argument<string>("SQL") { Description = $"A statement over the tables {string.Join(", ", StandardViews.Names)}." };
        var format = new Option<RowFormat>("--format") { Description = "How rows are written: table (default), csv or ndjson.", DefaultValueFactory = _ => RowFormat.Table };
        var sql = new Command("sql", "Answer SQL over the gathered results. Rows hold dates and keys of charts: what leaves the house is made by other commands.") { statement, format, config };
        sql.SetAction(async (parsed, cancellation) =>
        {
            var settings = SettingsFile.Load(parsed.GetValue(config));
            var rows = OutcomeFolders.Rows(settings);
            rows.Refresh(OutcomeFolders.Gathered(settings), StandardViews.All);
            await LeftOutRows.TellAsync(rows, terminal.Error);
            using var connection = rows.Open(StandardViews.All);
            var act = CommandAudit.Act("outcomes sql") with { Query = parsed.GetRequiredValue(statement) };
            await CommandAudit.WriteAsync(settings, act, cancellation);
            using var answer = SqlAnswer.Ask(connection, parsed.GetRequiredValue(statement));
            await CommandAudit.WriteGivenAsync(settings, act, "rows", await RowPrinter.WriteAsync(parsed.GetValue(format), answer.Columns, answer.Rows(), terminal.Output));
            return ExitCode.Done;
        });
        return sql;
    }
}
