using System.Collections.Immutable;
using System.Reflection;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace HandFhirBridge.Assessment.Instruments;

/// <summary>Reads the definitions and tables that come with the product.</summary>
internal static class EmbeddedData
{
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false) },
    };

    /// <summary>Every embedded resource of a folder, in the order of their names.</summary>
    /// <exception cref="InvalidOperationException">A resource cannot be read: the build is broken.</exception>
    public static ImmutableArray<T> ReadAll<T>(string folder)
    {
        var assembly = Assembly.GetExecutingAssembly();
        return
        [
            .. assembly.GetManifestResourceNames()
                .Where(name => name.Contains($".{folder}.Data.", StringComparison.Ordinal))
                .Order(StringComparer.Ordinal)
                .Select(name => Read<T>(assembly, name)),
        ];
    }

    private static T Read<T>(Assembly assembly, string name)
    {
        using var stream = assembly.GetManifestResourceStream(name)!;
        return JsonSerializer.Deserialize<T>(stream, Options)
            ?? throw new InvalidOperationException($"The embedded resource {name} is empty.");
    }
}
