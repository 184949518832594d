using System.CommandLine;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Outcomes;
using HandFhirBridge.Outcomes.Deidentification;
using HandFhirBridge.Service.Hosting;

namespace HandFhirBridge.Service.Cli;

/// <summary>The command line: one executable, one command a file of this folder.</summary>
public static class CommandLine
{
    /// <summary>Runs one command.</summary>
    /// <param name="arguments">Words after the program's name.</param>
    /// <param name="input">Standard input.</param>
    /// <param name="output">Standard output.</param>
    /// <param name="error">Standard error; progress goes here and only to a terminal.</param>
    /// <param name="cancellation">Cancels the command; Ctrl-C does as well.</param>
    /// <returns>One of <see cref="ExitCode"/>.</returns>
    public static async Task<int> RunAsync(
        IReadOnlyList<string> arguments, Stream input, TextWriter output, TextWriter error, CancellationToken cancellation)
    {
        var terminal = new CommandTerminal(input, output, error);
        var root = new RootCommand("Scores a timed hand-function session, maps it to FHIR R4, validates it and delivers it to the record.")
        {
            DemoCommand.Create(terminal),
            ServeCommand.Create(terminal),
            CheckCommand.Create(terminal),
            SubmitCommand.Create(terminal),
            LedgerCommand.Create(terminal),
            TargetsCommand.Create(terminal),
            ConfigCommand.Create(terminal),
            GatherCommand.Create(terminal),
            OutcomesCommand.Create(terminal),
            NormsCommand.Create(terminal),
            ProfilesCommand.Create(terminal),
            KeysCommand.Create(terminal),
            HealthCommand.Create(terminal),
        };
        var parsed = root.Parse(arguments);
        if (parsed.Errors.Count > 0)
        {
            foreach (var problem in parsed.Errors)
            {
                await error.WriteLineAsync(problem.Message);
            }

            await error.WriteLineAsync("See: handfhirbridge --help");
            return ExitCode.Usage;
        }

        try
        {
            var configuration = new InvocationConfiguration { Output = output, Error = error, EnableDefaultExceptionHandler = false };
            return await parsed.InvokeAsync(configuration, cancellation);
        }
        catch (CommandFailedException failed)
        {
            await error.WriteLineAsync(failed.Message);
            return failed.ExitCode;
        }
        catch (LedgerException unusable)
        {
            await error.WriteLineAsync($"{unusable.Problem.Message} {unusable.Problem.Remedy}");
            return ExitCode.Environment;
        }
        catch (OutcomeException refused)
        {
            await error.WriteLineAsync($"{refused.Problem.Code}: {refused.Problem.Message} {refused.Problem.Remedy}");
            return refused is DeidentificationException ? ExitCode.Environment : ExitCode.Findings;
        }
        catch (Exception broken) when (broken is IOException or UnauthorizedAccessException)
        {
            await error.WriteLineAsync($"{broken.Message} Check the path, its permissions and the free space.");
            return ExitCode.Environment;
        }
    }
}
