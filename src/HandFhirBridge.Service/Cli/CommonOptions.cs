using System.CommandLine;

namespace HandFhirBridge.Service.Cli;

/// <summary>Options that several commands share; each command makes its own.</summary>
internal static class CommonOptions
{
    public static Option<string?> Config() => new("--config")
    {
        Description = "Settings file (default: handfhirbridge.json in the working directory, if there is one).",
        HelpName = "FILE",
    };

    public static Argument<string[]> Paths()
    {
        var paths = new Argument<string[]>("PATH")
        {
            Description = "Session documents: JSON, NDJSON or CSV files, folders, or - for standard input.",
            Arity = ArgumentArity.OneOrMore,
        };
        paths.Validators.Add(result =>
        {
            foreach (var token in result.Tokens.Where(t => t.Value.Length > 1 && t.Value[0] == '-'))
            {
                result.AddError($"There is no option {token.Value}. A file of that name is written ./{token.Value}.");
            }
        });
        return paths;
    }

    /// <summary>Stops before anything is read if a path that was named is not there: most likely it is a slip of the pen.</summary>
    public static void DemandExisting(IEnumerable<string> paths)
    {
        if (paths.FirstOrDefault(p => p != "-" && !Path.Exists(p)) is { } missing)
        {
            throw new CommandFailedException($"{missing} does not exist. Check the path; nothing was read.");
        }
    }

    public static Option<bool> Demonstration() => new("--demonstration")
    {
        Description = "Let norms from memory score, and mark everything they touch. Never for patients.",
    };
}
