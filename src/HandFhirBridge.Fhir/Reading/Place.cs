using HandFhirBridge.Assessment.Problems;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Where in the resources something is read, and where its problems go.</summary>
/// <param name="Problems">Problems of the session.</param>
/// <param name="Path">FHIRPath of the element.</param>
internal readonly record struct Place(List<Problem> Problems, string Path)
{
    /// <summary>The place of a resource, told by its own identifier or else by its id.</summary>
    public static Place Of(List<Problem> problems, Resource resource, string? identifier) => new(
        problems,
        identifier is null ? $"{resource.TypeName}.where(id = '{resource.Id}')" : $"{resource.TypeName}.where(identifier.value = '{identifier}')");

    public Place At(string element) => this with { Path = $"{Path}.{element}" };

    public void Missing() => Problems.Add(ReadingProblems.ElementMissing.At(Path, $"{Path} is missing."));

    public void NotUnderstood(string? found, string expected) =>
        Problems.Add(ReadingProblems.NotUnderstood.At(Path, $"{Path} is {Shown(found)}; {expected} is expected.", found));

    public void Contradicts(string? found, string expected) =>
        Problems.Add(ReadingProblems.Contradiction.At(Path, $"{Path} is {Shown(found)}, but {expected}.", found));

    public void Add(ProblemKind kind, string sentence, string? found = null) => Problems.Add(kind.At(Path, $"{Path} {sentence}", found));

    private static string Shown(string? found) => found is null ? "missing" : $"\"{found}\"";
}
