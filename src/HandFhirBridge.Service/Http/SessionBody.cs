using System.Buffers;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Service.Pipeline;

namespace HandFhirBridge.Service.Http;

/// <summary>Takes a session document from a request, never more than a document may be.</summary>
public static class SessionBody
{
    /// <summary>The body, or the problem with it.</summary>
    public static async Task<(ReadOnlyMemory<byte> Bytes, Problem? Problem)> ReadAsync(HttpRequest request, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        if (!request.HasJsonContentType())
        {
            return (default, ServiceProblems.UnsupportedMediaType.At(
                "", $"The body is declared as {request.ContentType ?? "nothing"}, not as JSON.", request.ContentType));
        }

        // One byte more than allowed tells a body that is too large from one that just fits.
        var limit = SessionReader.MaxDocumentBytes + 1;
        var buffer = new ArrayBufferWriter<byte>(4096);
        while (buffer.WrittenCount < limit)
        {
            var read = await request.Body.ReadAsync(buffer.GetMemory(4096), cancellation);
            if (read == 0)
            {
                return (buffer.WrittenMemory, null);
            }

            buffer.Advance(read);
        }

        return (default, ServiceProblems.BodyTooLarge.At(
            "", $"The body is larger than {SessionReader.MaxDocumentBytes} bytes.", null));
    }
}
