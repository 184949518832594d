namespace HandFhirBridge.Service.Cli;

/// <summary>A single line on a terminal that counts along; nothing at all in a pipe or file.</summary>
/// <param name="error">Standard error.</param>
/// <param name="onTerminal">True if a person watches.</param>
public sealed class Progress(TextWriter error, bool onTerminal)
{
    private int width;

    /// <summary>Progress on this process's standard error.</summary>
    public static Progress On(TextWriter error) => new(error, !Console.IsErrorRedirected);

    /// <summary>Replaces the line.</summary>
    public void Show(string line)
    {
        ArgumentNullException.ThrowIfNull(line);
        if (onTerminal)
        {
            error.Write('\r' + line.PadRight(width));
            width = line.Length;
        }
    }

    /// <summary>Wipes the line, so that results start on a clean one.</summary>
    public void Clear()
    {
        if (onTerminal && width > 0)
        {
            error.Write('\r' + new string(' ', width) + '\r');
            width = 0;
        }
    }
}
