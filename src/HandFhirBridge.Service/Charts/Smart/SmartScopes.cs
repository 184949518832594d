namespace HandFhirBridge.Service.Charts.Smart;

/// <summary>What a token lets its bearer read (SMART App Launch 2.2, scopes v1 and v2).</summary>
public static class SmartScopes
{
    /// <summary>Without one of these there is no course.</summary>
    private static readonly string[] Needed = ["DiagnosticReport", "Observation", "QuestionnaireResponse"];

    /// <summary>Resource types of a course that <paramref name="granted"/> does not let the bearer search and read.</summary>
    public static IReadOnlyList<string> Missing(string granted)
    {
        ArgumentNullException.ThrowIfNull(granted);
        var scopes = granted.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return [.. Needed.Where(type => !scopes.Any(scope => Covers(scope, type)))];
    }

    // A v2 scope may name a query behind its letters; what it narrows is for the server to say.
    private static bool Covers(string scope, string type) =>
        scope.Split('?')[0].Split('/') is ["patient" or "user", var rest] && rest.Split('.') is [var named, var may]
        && (named == type || named == "*")
        && (may is "read" or "*" || (may.Contains('r', StringComparison.Ordinal) && may.Contains('s', StringComparison.Ordinal) && may.All("cruds".Contains)));
}
