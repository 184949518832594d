using System.Collections;
using System.Reflection;
using HandFhirBridge.Service.Settings;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Settings;

/// <summary>docs/settings.md names every setting there is.</summary>
public sealed class SettingsPageTests
{
    private static readonly string Page = File.ReadAllText(Path.Combine(Repository.Root, "docs", "settings.md"));

    public static TheoryData<string> Settings => [.. Of(typeof(BridgeSettings), "")];

    [Theory, MemberData(nameof(Settings))]
    public void Page_EachSetting_IsNamed(string setting)
    {
        // Rows name settings whole, or, after a whole one, by their last part.
        var (group, last) = (setting[..(setting.LastIndexOf(':') + 1)], setting[(setting.LastIndexOf(':') + 1)..]);
        (Page.Contains($"`{setting}`", StringComparison.Ordinal)
            || Page.Split('\n').Any(row => row.StartsWith($"| `{group}", StringComparison.Ordinal) && row.Contains($"`{last}`", StringComparison.Ordinal)))
            .ShouldBeTrue($"docs/settings.md does not name {setting}.");
    }

    // What Targets has, Target has.
    private static IEnumerable<string> Of(Type type, string prefix) => type.GetProperties(BindingFlags.Public | BindingFlags.Instance)
        .Where(p => p.Name != nameof(BridgeSettings.Targets) && (p.CanWrite || Element(p.PropertyType) is not null))
        .SelectMany(p => Element(p.PropertyType) is { } element ? Of(element, $"{prefix}{p.Name}:n:")
            : p.PropertyType.Namespace!.StartsWith("HandFhirBridge", StringComparison.Ordinal) && p.PropertyType.IsClass ? Of(p.PropertyType, $"{prefix}{p.Name}:")
            : [$"{prefix}{p.Name}"]);

    private static Type? Element(Type type) => type.IsGenericType && typeof(IEnumerable).IsAssignableFrom(type) ? type.GetGenericArguments()[0] : null;
}
