using System.Net;

namespace HandFhirBridge.Delivery.Reading;

/// <summary>A FHIR server could not be read; the message holds no patient data.</summary>
public sealed class RecordReadException : Exception
{
    /// <summary>With no message.</summary>
    public RecordReadException()
    {
    }

    /// <summary>With a sentence that says what was asked and what came.</summary>
    public RecordReadException(string message)
        : base(message)
    {
    }

    /// <summary>With a sentence and its cause.</summary>
    public RecordReadException(string message, Exception innerException)
        : base(message, innerException)
    {
    }

    /// <summary>What the server answered; null if it is not the status that was wrong.</summary>
    public HttpStatusCode? Status { get; init; }
}
