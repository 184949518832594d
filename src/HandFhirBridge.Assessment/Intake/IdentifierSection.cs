using System.Text.RegularExpressions;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>An identifier of somebody or something: system and value.</summary>
internal static partial class IdentifierSection
{
    public static BusinessIdentifier? Read(Field field)
    {
        if (field.Object("system", "value") is not { } fields)
        {
            return null;
        }

        var system = System(fields.Required("system"));
        var value = fields.Required("value").Name();
        return system is null || value is null ? null : new BusinessIdentifier(system, value);
    }

    private static string? System(Field field)
    {
        if (field.Name() is not { } text)
        {
            return null;
        }

        // The framework alone takes "/id" for an absolute file URI on some systems; RFC 3986 wants a scheme.
        if (Scheme().IsMatch(text) && Uri.IsWellFormedUriString(text, UriKind.Absolute))
        {
            return text;
        }

        field.Problems.Add(IntakeProblems.SystemNotAbsolute, field.Path, $"is \"{ProblemList.Shown(text)}\", which is not an absolute URI.", text);
        return null;
    }

    [GeneratedRegex(@"^[A-Za-z][A-Za-z0-9+.-]*:\S+\z")]
    private static partial Regex Scheme();
}
