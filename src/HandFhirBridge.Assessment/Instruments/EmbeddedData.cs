using System.Collections.Immutable;
using System.Reflection;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;

namespace HandFhirBridge.Assessment.Instruments;

/// <summary>Reads the definitions and tables that come with the product.</summary>
internal static class EmbeddedData
{
    /// <summary>Every embedded resource of a folder, in the order of their names.</summary>
    /// <exception cref="InvalidOperationException">A resource cannot be read: the build is broken.</exception>
    public static ImmutableArray<T> ReadAll<T>(string folder, JsonTypeInfo<T> type)
    {
        var assembly = Assembly.GetExecutingAssembly();
        return
        [
            .. assembly.GetManifestResourceNames()
                .Where(name => name.Contains($".{folder}.Data.", StringComparison.Ordinal))
                .Order(StringComparer.Ordinal)
                .Select(name => Read(assembly, name, type)),
        ];
    }

    private static T Read<T>(Assembly assembly, string name, JsonTypeInfo<T> type)
    {
        using var stream = assembly.GetManifestResourceStream(name)!;
        try
        {
            return JsonSerializer.Deserialize(stream, type) ?? throw new InvalidOperationException($"The embedded resource {name} is empty.");
        }
        catch (JsonException broken)
        {
            throw new InvalidOperationException($"The embedded resource {name} cannot be read.", broken);
        }
    }
}
