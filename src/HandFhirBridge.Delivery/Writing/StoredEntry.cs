using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>What a target answered to one entry of a transaction.</summary>
/// <param name="Status">First three digits of <c>response.status</c> (<c>201</c>, <c>201 Created</c>); null if there are none.</param>
/// <param name="Id">Id from <c>response.location</c> (relative or absolute) or the returned resource; null if neither says.</param>
/// <param name="Issues">Issues of the entry's own OperationOutcome.</param>
public sealed partial record StoredEntry(int? Status, string? Id, IReadOnlyList<AnswerIssue> Issues)
{
    /// <summary>True for a status from 200 to 299.</summary>
    public bool Succeeded => Status is >= 200 and <= 299;

    /// <summary>Reads an entry of a transaction-response.</summary>
    public static StoredEntry Of(JsonElement entry)
    {
        var response = entry.Object("response");
        var status = response.Text("status") is { } text && LeadingStatus().Match(text) is { Success: true } match
            ? int.Parse(match.Groups[1].ValueSpan, CultureInfo.InvariantCulture)
            : (int?)null;
        return new(status, ResourcePlaces.IdIn(response.Text("location")) ?? entry.Object("resource").Text("id"), [.. AnswerIssue.Of(response.Object("outcome"))]);
    }

    [GeneratedRegex(@"^\s*(\d{3})(?:\s|$)")]
    private static partial Regex LeadingStatus();
}
