using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Intake;

/// <summary>One file to read, or why there is none.</summary>
/// <param name="Path">Path as given, or below the folder given; <c>-</c> for standard input.</param>
/// <param name="Problem">Null if the file can be opened.</param>
internal readonly record struct SourceFile(string Path, Problem? Problem)
{
    public const string StandardInput = "-";
}
