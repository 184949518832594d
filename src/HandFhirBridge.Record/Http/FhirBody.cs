using System.Net;
using Hl7.Fhir.Model;
using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Record.Http;

/// <summary>Reads bodies of requests.</summary>
internal static class FhirBody
{
    /// <summary>The resource, read strictly: unknown elements, wrong types and impossible values are refused with their place.</summary>
    public static async Task<ReceivedResource> ReadAsync(HttpRequest request, int limit, CancellationToken cancellation) =>
        (await WrittenAsync(request, limit, cancellation)).Check().Demand();

    /// <summary>The body as it is written, to be checked by who asks.</summary>
    /// <exception cref="RecordRefusal">413, 415, or 400: it is not well-formed.</exception>
    public static async Task<WrittenBody> WrittenAsync(HttpRequest request, int limit, CancellationToken cancellation)
    {
        var format = MediaTypes.OfBody(request.ContentType);
        if (request.ContentLength > limit)
        {
            throw TooLarge(limit);
        }

        using var bytes = new MemoryStream();
        var buffer = new byte[81920];
        int read;
        while ((read = await request.Body.ReadAsync(buffer, cancellation)) > 0)
        {
            bytes.Write(buffer, 0, read);
            if (bytes.Length > limit)
            {
                throw TooLarge(limit);
            }
        }

        var body = bytes.GetBuffer().AsMemory(0, (int)bytes.Length);
        return format == MediaTypes.FhirXml ? XmlBody.Of(body) : JsonBody.Of(body);
    }

    private static RecordRefusal TooLarge(int limit) =>
        new(HttpStatusCode.RequestEntityTooLarge, OperationOutcome.IssueType.TooLong, $"The body is larger than {limit} bytes, which is the limit of this server.");
}
