using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Intake;

/// <summary>A file that is one session document.</summary>
internal sealed class JsonSource(SessionReader reader)
{
    public async Task<IntakeItem> ReadAsync(string source, Stream stream, CancellationToken cancel)
    {
        var place = new SourcePlace(source);
        var buffer = new byte[SessionReader.MaxDocumentBytes + 1];
        var length = await stream.ReadAtLeastAsync(buffer, buffer.Length, throwOnEndOfStream: false, cancel);
        if (length == buffer.Length)
        {
            return IntakeItem.Refused(place, IntakeFormat.Json, IntakeProblems.DocumentTooLarge.At("", "The document is larger than 1 MiB."));
        }

        var document = buffer.AsSpan(0, length).ToArray();
        var outcome = reader.Read(document);
        return new(place, IntakeFormat.Json, document, outcome with { Problems = [.. outcome.Problems.Select(p => p with { Place = place })] });
    }
}
