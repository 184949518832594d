using System.CommandLine;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Security;

namespace HandFhirBridge.Service.Cli;

/// <summary><c>keys add</c>: keys by which machines sign in to the HTTP API.</summary>
internal static class KeysCommand
{
    public static Command Create(CommandTerminal terminal)
    {
        var name = new Argument<string>("NAME") { Description = "Who will use it; letters, digits and hyphens." };
        name.Validators.Add(result =>
        {
            var given = result.Tokens.Count == 1 ? result.Tokens[0].Value : "";
            if (given.Length == 0 || !given.All(c => char.IsAsciiLetterOrDigit(c) || c == '-'))
            {
                result.AddError($"The name \"{given}\" has something other than letters, digits and hyphens.");
            }
        });
        var file = new Option<string>("--file") { Description = "Key file.", HelpName = "FILE", DefaultValueFactory = _ => "keys.json" };
        var scopes = new Option<string[]>("--scope")
        {
            Description = "What it may do: submit, read, operate. Repeat for more than one.",
            Required = true,
            AllowMultipleArgumentsPerToken = true,
        };
        scopes.AcceptOnlyFromAmong([.. Scopes.All]);
        var add = new Command("add", "Make a key, show it once and keep its hash.") { name, file, scopes };
        add.SetAction(parsed => Add(
            parsed.GetRequiredValue(file), parsed.GetRequiredValue(name), parsed.GetRequiredValue(scopes), terminal));
        return new Command("keys", "Keys by which machines sign in to the HTTP API.") { add };
    }

    private static int Add(string file, string name, string[] scopes, CommandTerminal terminal)
    {
        try
        {
            var key = new MachineKeyFile(file).Add(name, [.. scopes.Distinct()]);
            terminal.Output.WriteLine(key);
            terminal.Error.WriteLine($"This is the only time the key is shown. Send it as: Authorization: Bearer {MachineKey.Prefix}…; {file} holds its hash.");
            return ExitCode.Done;
        }
        catch (InvalidDataException refused)
        {
            throw new CommandFailedException(refused.Message, refused);
        }
    }
}
