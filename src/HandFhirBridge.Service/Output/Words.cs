using System.Text.Json;

namespace HandFhirBridge.Service.Output;

/// <summary>Names of the trade as people read them.</summary>
internal static class Words
{
    /// <summary>A member of an enumeration in words: <c>StoppedAtCap</c> is "stopped at cap".</summary>
    public static string Of(Enum value) =>
        Of(JsonNamingPolicy.KebabCaseLower.ConvertName(value.ToString()));

    /// <summary>An id in words: <c>card-turning</c> is "card turning".</summary>
    public static string Of(string id) => id
        .Replace("non-", "non\u2011", StringComparison.Ordinal)
        .Replace("-task-total", "\u2011task total", StringComparison.Ordinal)
        .Replace('-', ' ')
        .Replace('\u2011', '-');
}
