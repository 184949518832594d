using System.Text.RegularExpressions;
using HandFhirBridge.Service.Cli;
using Microsoft.Extensions.Configuration;

namespace HandFhirBridge.Service.Settings;

/// <summary>Reads the settings.</summary>
public static partial class SettingsFile
{
    /// <summary>Name looked for in the working directory.</summary>
    public const string DefaultName = "handfhirbridge.json";

    /// <summary>Settings from <paramref name="path"/>, or from the default file if there is one, overridden by the environment.</summary>
    /// <exception cref="CommandFailedException">As of <see cref="Read"/>, or some setting cannot be right.</exception>
    public static BridgeSettings Load(string? path)
    {
        var settings = Read(path);
        SettingsCheck.Demand(settings);
        return settings;
    }

    /// <summary>The same, without looking whether the settings make sense together.</summary>
    /// <exception cref="CommandFailedException">The file is missing, is not JSON, or holds a setting that does not exist or has the wrong type.</exception>
    public static BridgeSettings Read(string? path)
    {
        if (path is not null && !File.Exists(path))
        {
            throw new CommandFailedException($"The settings file {path} does not exist. Name an existing file with --config, or leave the option out.");
        }

        var settings = new BridgeSettings();
        try
        {
            new ConfigurationBuilder()
                .AddJsonFile(Path.GetFullPath(path ?? DefaultName), optional: path is null, reloadOnChange: false)
                .AddEnvironmentVariables("HFB_")
                .Build()
                .Bind(settings, binder => binder.ErrorOnUnknownConfiguration = true);
        }
        catch (Exception wrong) when (wrong is InvalidDataException or FormatException or InvalidOperationException)
        {
            throw new CommandFailedException($"The settings cannot be used: {Sentence(wrong)} See docs/settings.md for every setting.", wrong);
        }

        return settings;
    }

    // The outer message names the setting or the file, the innermost what is wrong with it.
    private static string Sentence(Exception exception)
    {
        var inner = exception;
        while (inner.InnerException is { } deeper)
        {
            inner = deeper;
        }

        return Unknown().Match(inner.Message) is { Success: true } unknown
            ? $"{unknown.Groups["names"].Value} is no setting{(unknown.Groups["part"] is { Value: not "Bridge" } part ? $" of {part.Value}" : "")}."
            : inner == exception ? exception.Message : $"{exception.Message} {inner.Message}";
    }

    // The framework tells a misspelt setting in words about its own classes; if it ever words it otherwise, its words are shown.
    [GeneratedRegex(@"not found on the instance of [\w.]*?(?<part>\w+?)(?:Settings|Options): (?<names>'.+')$")]
    private static partial Regex Unknown();
}
