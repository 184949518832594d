using System.CommandLine;
using HandFhirBridge.Fhir.Profiles;
using HandFhirBridge.Service.Hosting;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>profiles pack</c>: our profiles as a FHIR package that a site can load into its own server.</summary>
internal static class ProfilesCommand
{
    public static Command Create(CommandTerminal terminal)
    {
        var output = new Option<string>("--output", "-o")
        {
            Description = "File to write.",
            HelpName = "FILE",
            DefaultValueFactory = _ => "handfhirbridge.r4-0.1.0.tgz",
        };
        var pack = new Command("pack", "Write the profiles, value sets and questionnaires as a FHIR package (.tgz).") { output };
        pack.SetAction(parsed => Pack(parsed.GetRequiredValue(output), terminal));
        return new Command("profiles", "The FHIR profiles of this service.") { pack };
    }

    private static int Pack(string path, CommandTerminal terminal)
    {
        using (var file = File.Create(path))
        {
            ProfilePackage.Pack(file);
        }

        terminal.Output.WriteLine($"Wrote {path}. Load it into a FHIR server that takes packages, or unpack it and PUT each resource.");
        return ExitCode.Done;
    }
}
