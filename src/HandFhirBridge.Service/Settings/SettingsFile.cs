using HandFhirBridge.Service.Cli;
using Microsoft.Extensions.Configuration;

namespace HandFhirBridge.Service.Settings;

/// <summary>Reads the settings.</summary>
public static class SettingsFile
{
    /// <summary>Name looked for in the working directory.</summary>
    public const string DefaultName = "handfhirbridge.json";

    /// <summary>Settings from <paramref name="path"/>, or from the default file if there is one, overridden by the environment.</summary>
    /// <exception cref="CommandFailedException">The file is missing, is not JSON, or holds a setting that does not exist or has the wrong type.</exception>
    public static BridgeSettings Load(string? path)
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

        SettingsCheck.Demand(settings);
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

        return inner == exception ? exception.Message : $"{exception.Message} {inner.Message}";
    }
}
