using System.Buffers.Text;
using System.Globalization;
using System.Text.RegularExpressions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Remembered;

/// <summary>What of a passed-over value goes into a shape. Null: the value is out of the ordinary, and its resource is not remembered.</summary>
internal static partial class OrdinaryValue
{
    private const int LongestWords = 100_000;
    private const int LongestData = 1_000_000;
    private const string Demonstration = "DEMONSTRATION";
    private const string Digest = "sha-256:";

    /// <summary>Class of a value of one of the kinds that have few.</summary>
    internal static int? ClassOf(LeafKind kind, object? value) => (kind, value) switch
    {
        (LeafKind.Id, string id) => IdForm.IsMatch(id) ? 0 : null,
        (LeafKind.Words, string words) => OfWords(words),
        (LeafKind.Token, string token) => OfWords(token) is null || token.Any(char.IsWhiteSpace) ? null : 0,
        (LeafKind.System, string system) => SystemForm.IsMatch(system) ? 0 : null,
        (LeafKind.Decimal, decimal number) => OfDecimal(number),
        (LeafKind.Count, int number) => number > 0 ? 0 : null,
        (LeafKind.Moment, string moment) => Instant(moment) is null ? null : 0,
        (LeafKind.End, string moment) => Instant(moment) is null ? null : MomentForm.Match(moment).Groups[1].Length,
        (LeafKind.Day, string day) => DateOnly.TryParseExact(day, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out _) ? 0 : null,
        (LeafKind.Data, string data) => data.Length is > 0 and <= LongestData && Base64.IsValid(data) && !data.Any(char.IsWhiteSpace) ? 0 : null,
        (LeafKind.Address, string address) => IsAddress(address) ? 0 : null,
        _ => null,
    };

    /// <summary>The type in <c>Type/id</c>; null where it is written otherwise.</summary>
    internal static string? TypeIn(object? address) => address is string text && TypeAndIdForm.Match(text) is { Success: true } match ? match.Groups[1].Value : null;

    internal static bool IsAddress(string address) => AddressForm.IsMatch(address);

    /// <summary>Order of two moments, for the rules that compare them.</summary>
    internal static int? Order(string start, string end) => Instant(start) is { } from && Instant(end) is { } to ? from.CompareTo(to) : null;

    /// <summary>Order of two quantities in the same unit, for the rules that compare them.</summary>
    internal static int? Order(Quantity low, Quantity high) =>
        low.ValueElement?.JsonValue is decimal from && high.ValueElement?.JsonValue is decimal to && UnitOf(low) == UnitOf(high) ? from.CompareTo(to) : null;

    private static (object?, object?, object?, object?) UnitOf(Quantity quantity) =>
        (quantity.UnitElement?.JsonValue, quantity.SystemElement?.JsonValue, quantity.CodeElement?.JsonValue, quantity.ComparatorElement?.JsonValue);

    // What rules look for in words: the mark of a demonstration (hfb-12, hfb-20), a digest of 64 characters (hfb-21).
    private static int? OfWords(string words) => !AreOrdinary(words) ? null
        : words.StartsWith(Digest, StringComparison.Ordinal) ? (DigestForm.IsMatch(words) ? 2 : null)
        : words.Contains(Demonstration, StringComparison.Ordinal) ? 1 : 0;

    private static bool AreOrdinary(string words)
    {
        if (words.Length is 0 or > LongestWords || char.IsWhiteSpace(words[0]) || char.IsWhiteSpace(words[^1]))
        {
            return false;
        }

        for (var at = 0; at < words.Length; at++)
        {
            var isPair = char.IsHighSurrogate(words[at]) && at + 1 < words.Length && char.IsLowSurrogate(words[at + 1]);
            if (isPair)
            {
                at++;
            }
            else if (char.IsSurrogate(words[at]) || (words[at] is not (' ' or '\n') && (char.IsWhiteSpace(words[at]) || char.IsControl(words[at]))))
            {
                return false;
            }
        }

        return true;
    }

    private static int OfDecimal(decimal number) => ((Math.Sign(number) + 1) * 3) + Math.Sign(number - 2) + 1;

    private static DateTimeOffset? Instant(string moment) =>
        MomentForm.IsMatch(moment) && DateTimeOffset.TryParseExact(moment, "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK", CultureInfo.InvariantCulture, DateTimeStyles.None, out var instant)
            ? instant
            : null;

    [GeneratedRegex(@"\A[A-Za-z0-9\-.]{1,64}\z")]
    private static partial Regex IdForm { get; }

    [GeneratedRegex(@"\Ahttps?://[A-Za-z0-9.\-/_]{1,200}\z")]
    private static partial Regex SystemForm { get; }

    [GeneratedRegex(@"\Asha-256:[!-~]{64}\z")]
    private static partial Regex DigestForm { get; }

    [GeneratedRegex(@"\A[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(\.[0-9]{1,7})?(?:Z|[+-][0-9]{2}:[0-9]{2})\z")]
    private static partial Regex MomentForm { get; }

    [GeneratedRegex(@"\Aurn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}\z")]
    private static partial Regex AddressForm { get; }

    [GeneratedRegex(@"\A([A-Z][A-Za-z]{1,40})/[A-Za-z0-9\-.]{1,64}\z")]
    private static partial Regex TypeAndIdForm { get; }
}
