using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Service.Auditing;

/// <summary>Somebody read or wrote a patient's data.</summary>
/// <param name="Interaction">What was done, as FHIR names it: <c>read</c>, <c>search-type</c>, <c>create</c>, <c>update</c>, <c>delete</c>, <c>transaction</c>, <c>operation</c>.</param>
/// <param name="Status">HTTP status of the answer: below 400 done, below 500 refused, above failed.</param>
/// <param name="Who">Name of the caller as signed in; null if the caller has none.</param>
/// <param name="Address">Network address of the caller; null on the command line.</param>
/// <param name="Path">What was asked for, without what a query holds.</param>
/// <param name="Concerning">Sessions and patients, by identifier; never a name.</param>
public sealed record AuditedAct(
    string Interaction, int Status, string? Who, string? Address, string Path, ImmutableArray<BusinessIdentifier> Concerning)
{
    /// <summary>What was asked of many patients' data at once, such as a statement; null where the path and the identifiers say it.</summary>
    public string? Query { get; init; }

    /// <summary>Resources of the embedded record, as <c>Type/id</c>: patients whose data was given out, and what was written.</summary>
    public ImmutableArray<string> References { get; init; } = [];

    /// <summary>Rows that were given, by table; empty where not rows were asked for, or none were given yet.</summary>
    public ImmutableSortedDictionary<string, long> Rows { get; init; } = ImmutableSortedDictionary<string, long>.Empty;

    /// <summary>Why, in the words of whoever did it; null if nobody was asked.</summary>
    public string? Reason { get; init; }

    /// <summary>Who gets what was taken out of the house; null if it stays.</summary>
    public string? Recipient { get; init; }
}
