using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Record;

/// <summary>An answer of the record, for those who keep an account of what was given out.</summary>
public interface IRecordAnswer : IStatusCodeHttpResult
{
    /// <summary>Patients whose data it carries and resources that were written, as <c>Type/id</c>, each once. Found when asked for.</summary>
    IEnumerable<string> Concerns { get; }
}
