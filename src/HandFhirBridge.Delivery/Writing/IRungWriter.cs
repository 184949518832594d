using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>Writes sessions by one rung of the ladder.</summary>
public interface IRungWriter
{
    /// <summary>Which one.</summary>
    Rung Rung { get; }

    /// <summary>Writes once; what the target already holds is updated where it lies.</summary>
    /// <param name="target">Where.</param>
    /// <param name="bundle">What, in the form of the rung.</param>
    /// <param name="recorded">What the target was found to hold of it.</param>
    /// <param name="cancellation">Ends the wait.</param>
    Task<WriteResult> WriteAsync(FhirTarget target, SessionBundle bundle, RecordedSession recorded, CancellationToken cancellation);
}
