using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>
/// Writes a session resource by resource, each after what it refers to (rungs 3 to 5). What an earlier attempt left unfinished
/// is finished: what is there as it should be is left alone, what is there otherwise is updated, what is missing is created.
/// </summary>
/// <param name="rung">Which of the three.</param>
public sealed class SingleWriter(Rung rung) : IRungWriter
{
    /// <inheritdoc/>
    public Rung Rung => rung;

    /// <inheritdoc/>
    public async Task<WriteResult> WriteAsync(
        FhirTarget target, SessionBundle bundle, RecordedSession recorded, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(bundle);
        ArgumentNullException.ThrowIfNull(recorded);
        if (!bundle.IsDocument || bundle.Revision == 1)
        {
            return await new SingleWriteRun(target, bundle, recorded, rung, cancellation).RunAsync();
        }

        var succession = await DocumentSuccession.FindAsync(target, bundle, cancellation);
        if (succession.Doubt is not null || succession.Failure is not null)
        {
            var answer = succession.Failure ?? TargetAnswer.None(AnswerKind.Answered, "the search for earlier documents");
            return new(rung, WriteVerdict.NotStored, answer, RefusalText.Of(answer, bundle)) { Doubt = succession.Doubt, WasReading = true };
        }

        var written = await new SingleWriteRun(target, succession.Name(bundle), recorded, rung, cancellation).RunAsync();
        if (written.Verdict != WriteVerdict.Stored)
        {
            return written;
        }

        var (note, again) = await succession.SupersedeAsync(target, cancellation);
        return again is null
            ? written with { Text = written.Text + note }
            : written with { Verdict = WriteVerdict.NotStored, Answer = again, Text = $"On marking earlier documents: {RefusalText.Brief(again)}" };
    }
}
