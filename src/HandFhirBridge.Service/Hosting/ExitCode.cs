namespace HandFhirBridge.Service.Hosting;

/// <summary>What the process answers to its caller.</summary>
public static class ExitCode
{
    /// <summary>Done.</summary>
    public const int Done = 0;

    /// <summary>Done, and something was found wrong with the input.</summary>
    public const int Findings = 1;

    /// <summary>The command line is wrong.</summary>
    public const int Usage = 2;

    /// <summary>Something around us is missing or broken: a file, a folder, a port, a server.</summary>
    public const int Environment = 3;
}
