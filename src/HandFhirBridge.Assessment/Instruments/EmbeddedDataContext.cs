using System.Text.Json;
using System.Text.Json.Serialization;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Instruments;

/// <summary>How the definitions and tables that come with the product are written. Generated when built, so that the first verdict does not wait for reflection.</summary>
[JsonSourceGenerationOptions(
    JsonSerializerDefaults.Web,
    GenerationMode = JsonSourceGenerationMode.Metadata,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true,
    Converters =
    [
        typeof(KebabCaseConverter<Direction>), typeof(KebabCaseConverter<HandRole>), typeof(KebabCaseConverter<TrialOutcome>),
        typeof(KebabCaseConverter<SexForNorm>), typeof(KebabCaseConverter<Evidence>),
    ])]
[JsonSerializable(typeof(Instrument))]
[JsonSerializable(typeof(NormSet))]
internal sealed partial class EmbeddedDataContext : JsonSerializerContext;

/// <summary>Enum members as kebab-case words, and as nothing else.</summary>
internal sealed class KebabCaseConverter<T>() : JsonStringEnumConverter<T>(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false)
    where T : struct, Enum;
