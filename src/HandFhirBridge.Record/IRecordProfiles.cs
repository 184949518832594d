using Hl7.Fhir.Model;

namespace HandFhirBridge.Record;

/// <summary>Profiles beside base R4. The record has none of its own; who hosts it may give it some (<see cref="RecordOptions.Profiles"/>).</summary>
public interface IRecordProfiles
{
    /// <summary>All of them.</summary>
    IReadOnlyList<RecordProfile> All { get; }

    /// <summary>What is wrong with a resource by one of these profiles, its invariants and terminology included.</summary>
    /// <param name="resource">A resource of the profile's type, sound by base R4; it is not changed.</param>
    /// <param name="profile">One of <see cref="All"/>.</param>
    IEnumerable<OperationOutcome.IssueComponent> Check(Resource resource, RecordProfile profile);
}
