using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Intake;

/// <summary>From the paths given to the files to read.</summary>
internal static class SourceFiles
{
    private static readonly EnumerationOptions Everything = new()
    {
        RecurseSubdirectories = true,
        IgnoreInaccessible = false,
        // Links could lead in circles.
        AttributesToSkip = FileAttributes.ReparsePoint,
    };

    /// <summary>Format by the ending of the name, or null if the ending says nothing.</summary>
    public static IntakeFormat? FormatOf(string path) => Path.GetExtension(path).ToLowerInvariant() switch
    {
        ".json" => IntakeFormat.Json,
        ".ndjson" or ".jsonl" => IntakeFormat.Ndjson,
        ".csv" or ".tsv" => IntakeFormat.Csv,
        _ => null,
    };

    /// <summary>Files in the order given; those of a folder, subfolders included, sorted by their path.</summary>
    public static IEnumerable<SourceFile> Of(IEnumerable<string> paths) => paths.SelectMany(Of);

    private static IEnumerable<SourceFile> Of(string path)
    {
        if (path == SourceFile.StandardInput || (File.Exists(path) && FormatOf(path) is not null))
        {
            return [new(path, null)];
        }

        if (File.Exists(path))
        {
            return [new(path, IntakeProblems.UnknownFileKind.At("", $"The ending of {path} tells no known kind of file.", Path.GetExtension(path)))];
        }

        return Directory.Exists(path)
            ? InFolder(path)
            : [new(path, IntakeProblems.PathNotFound.At("", $"{path} does not exist."))];
    }

    private static IEnumerable<SourceFile> InFolder(string path)
    {
        string[] files;
        try
        {
            files = [.. Directory.EnumerateFiles(path, "*", Everything).Where(f => FormatOf(f) is not null).Order(StringComparer.Ordinal)];
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return [new(path, NotReadable(path))];
        }

        return files.Length > 0
            ? files.Select(f => new SourceFile(f, null))
            : [new(path, IntakeProblems.FolderWithoutSessions.At("", $"{path} holds no .json, .ndjson, .jsonl, .csv or .tsv file."))];
    }

    public static Problem NotReadable(string path) => IntakeProblems.FileNotReadable.At("", $"{path} cannot be read.");
}
