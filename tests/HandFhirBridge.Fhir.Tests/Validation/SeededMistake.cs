using System.Text.Json.Nodes;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Fhir.Tests.Validation;

/// <summary>One mistake made on purpose in a good bundle, and what is to be said about it.</summary>
/// <param name="Name">What is wrong.</param>
/// <param name="Profile">Id of the profile of the resource it is made in; the first entry of it is taken.</param>
/// <param name="Make">Makes the mistake in the resource.</param>
/// <param name="Kind">Kind of problem expected.</param>
/// <param name="Location">Expected FHIRPath after <c>Bundle.entry[n].resource</c>.</param>
public sealed record SeededMistake(string Name, string Profile, Action<JsonObject> Make, ProblemKind Kind, string Location)
{
    public override string ToString() => Name;
}
