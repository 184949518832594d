using System.CommandLine;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>outcomes</c>: questions to what was gathered.</summary>
internal static class OutcomesCommand
{
    public static Command Create(CommandTerminal terminal) => new("outcomes", "Ask the gathered results.")
    {
        OutcomesSqlCommand.Create(terminal),
        OutcomesRowsCommand.Create(terminal),
        OutcomesSummaryCommand.Create(terminal),
        OutcomesExportCommand.Create(terminal),
    };
}
