using System.Runtime.CompilerServices;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Intake;

/// <summary>One session document a line; blank lines are passed over.</summary>
internal sealed class NdjsonSource(SessionReader reader)
{
    public async IAsyncEnumerable<IntakeItem> ReadAsync(string source, Stream stream, [EnumeratorCancellation] CancellationToken cancel)
    {
        var any = false;
        await foreach (var line in LineReader.ReadAsync(stream, SessionReader.MaxDocumentBytes, cancel))
        {
            if (!line.IsBlank)
            {
                any = true;
                yield return Read(source, line);
            }
        }

        if (!any)
        {
            yield return IntakeItem.Refused(new SourcePlace(source), IntakeFormat.Ndjson,
                IntakeProblems.FolderWithoutSessions.At("", "The file has no line with a session."));
        }
    }

    private IntakeItem Read(string source, TextLine line)
    {
        var place = new SourcePlace(source, line.Number);
        if (line.IsTooLong)
        {
            return IntakeItem.Refused(place, IntakeFormat.Ndjson, IntakeProblems.DocumentTooLarge.At("", "The line is longer than 1 MiB."));
        }

        var outcome = reader.Read(line.Bytes);
        return new(place, IntakeFormat.Ndjson, line.Bytes, outcome with { Problems = [.. outcome.Problems.Select(p => p with { Place = place })] });
    }
}
