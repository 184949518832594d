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

    public static Argument<string[]> Paths() => new("PATH")
    {
        Description = "Session documents: JSON, NDJSON or CSV files, folders, or - for standard input.",
        Arity = ArgumentArity.OneOrMore,
    };

    public static Option<bool> Demonstration() => new("--demonstration")
    {
        Description = "Let norms from memory score, and mark everything they touch. Never for patients.",
    };
}
