using System.Globalization;
using System.Net.Http.Headers;
using System.Text.RegularExpressions;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>When a server asks to be tried again: <c>Retry-After</c> in seconds or as a date (RFC 9110 section 10.2.3), else the reset of a <c>RateLimit</c> header.</summary>
public static partial class RetryAfter
{
    /// <summary>The moment, not before <paramref name="now"/> and not later than <paramref name="cap"/> from it; null if the server asks for none.</summary>
    public static DateTimeOffset? Read(HttpResponseHeaders headers, DateTimeOffset now, TimeSpan cap)
    {
        ArgumentNullException.ThrowIfNull(headers);
        var wait = headers.RetryAfter?.Delta ?? (headers.RetryAfter?.Date - now) ?? RateLimitReset(headers);
        return wait is not { } time ? null : now + (time < TimeSpan.Zero ? TimeSpan.Zero : time > cap ? cap : time);
    }

    /// <summary>The IETF's draft (draft-ietf-httpapi-ratelimit-headers): <c>RateLimit: "name";r=0;t=30</c>, t in seconds, counted only when nothing remains.</summary>
    private static TimeSpan? RateLimitReset(HttpResponseHeaders headers) =>
        headers.TryGetValues("RateLimit", out var values) && Exhausted().Match(string.Join(',', values)) is { Success: true } match
            ? TimeSpan.FromSeconds(int.Parse(match.Groups[1].ValueSpan, CultureInfo.InvariantCulture))
            : null;

    [GeneratedRegex(@";\s*r=0\s*;\s*t=(\d{1,6})\b")]
    private static partial Regex Exhausted();
}
