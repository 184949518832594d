namespace HandFhirBridge.Service.Cli;

/// <summary>The streams a command talks through.</summary>
/// <param name="InputStream">Standard input.</param>
/// <param name="Output">Results.</param>
/// <param name="Error">Complaints, and progress when it is a terminal.</param>
public sealed record CommandTerminal(Stream InputStream, TextWriter Output, TextWriter Error);
