namespace HandFhirBridge.Service.Cli;

/// <summary>Ends a command with one plain sentence and an exit code.</summary>
public sealed class CommandFailedException : Exception
{
    /// <summary>With no sentence.</summary>
    public CommandFailedException()
    {
    }

    /// <summary>With a sentence; exit code <see cref="Hosting.ExitCode.Environment"/>.</summary>
    public CommandFailedException(string message)
        : base(message)
    {
    }

    /// <summary>With a sentence and its cause.</summary>
    public CommandFailedException(string message, Exception innerException)
        : base(message, innerException)
    {
    }

    /// <summary>With a sentence and an exit code.</summary>
    public CommandFailedException(string message, int exitCode)
        : base(message) => ExitCode = exitCode;

    /// <summary>What the process answers.</summary>
    public int ExitCode { get; } = Hosting.ExitCode.Environment;
}
