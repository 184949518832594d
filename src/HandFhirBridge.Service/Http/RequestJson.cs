using System.Text.Json;
using System.Text.Json.Serialization;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Service.Output;

namespace HandFhirBridge.Service.Http;

/// <summary>Reads small JSON bodies strictly: a property that is misspelt must not be taken for one left out.</summary>
internal static class RequestJson
{
    private static readonly JsonSerializerOptions Strict = new(JsonText.Compact)
    {
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        NumberHandling = JsonNumberHandling.Strict,
        PropertyNameCaseInsensitive = false,
    };

    /// <summary>The body, or the problem with it.</summary>
    /// <param name="request">The request.</param>
    /// <param name="kind">Problem to report a body that does not fit as.</param>
    /// <param name="cancellation">Gives up reading.</param>
    public static async Task<(T? Value, Problem? Problem)> ReadAsync<T>(HttpRequest request, ProblemKind kind, CancellationToken cancellation)
        where T : class
    {
        var (bytes, unreadable) = await SessionBody.ReadAsync(request, cancellation);
        if (unreadable is not null)
        {
            return (null, unreadable);
        }

        try
        {
            return JsonSerializer.Deserialize<T>(bytes.Span, Strict) is { } value
                ? (value, null)
                : (null, kind.At("$", "The body is no JSON object."));
        }
        catch (JsonException wrong)
        {
            // Not the message: it may quote what was sent.
            return (null, kind.At(wrong.Path ?? "$", $"The body does not fit at {wrong.Path ?? "$"}."));
        }
    }
}
