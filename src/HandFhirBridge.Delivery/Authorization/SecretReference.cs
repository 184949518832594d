namespace HandFhirBridge.Delivery.Authorization;

/// <summary>Names a secret without holding it: <c>env:NAME</c> or <c>file:PATH</c>.</summary>
public static class SecretReference
{
    private const string Env = "env:";
    private const string FileScheme = "file:";

    /// <summary>True if <paramref name="reference"/> has one of the two forms.</summary>
    public static bool IsWellFormed(string reference)
    {
        ArgumentNullException.ThrowIfNull(reference);
        return (reference.StartsWith(Env, StringComparison.Ordinal) && reference.Length > Env.Length)
            || (reference.StartsWith(FileScheme, StringComparison.Ordinal) && reference.Length > FileScheme.Length);
    }

    /// <summary>The secret, read anew each time, so that a renewed file is taken up without a restart.</summary>
    /// <exception cref="SignInException">The variable or file is missing or empty, or the reference has neither form.</exception>
    public static string Read(string reference)
    {
        ArgumentNullException.ThrowIfNull(reference);
        var secret = reference switch
        {
            _ when reference.StartsWith(Env, StringComparison.Ordinal) => Environment.GetEnvironmentVariable(reference[Env.Length..]),
            _ when reference.StartsWith(FileScheme, StringComparison.Ordinal) => ReadFile(reference[FileScheme.Length..]),
            _ => throw new SignInException("A secret is named env:NAME or file:PATH; it never stands in the settings itself."),
        };
        return string.IsNullOrWhiteSpace(secret)
            ? throw new SignInException($"The secret {reference} is missing or empty. Set the variable, or write the file.")
            : secret.Trim();
    }

    private static string? ReadFile(string path) => File.Exists(path) ? File.ReadAllText(path) : null;
}
