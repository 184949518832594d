using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace HandFhirBridge.Service.Output;

/// <summary>How this service writes its own JSON: camelCase names, kebab-case words, decimals with their digits, no nulls.</summary>
public static class JsonText
{
    /// <summary>On one line, for HTTP and NDJSON.</summary>
    public static JsonSerializerOptions Compact { get; } = Configure(new JsonSerializerOptions(JsonSerializerDefaults.Web));

    /// <summary>Indented, for people.</summary>
    public static JsonSerializerOptions Indented { get; } = new(Compact) { WriteIndented = true };

    /// <summary>Applies the service's conventions to <paramref name="options"/>.</summary>
    public static JsonSerializerOptions Configure(JsonSerializerOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        options.DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull;
        options.Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping;
        options.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false));
        return options;
    }
}
