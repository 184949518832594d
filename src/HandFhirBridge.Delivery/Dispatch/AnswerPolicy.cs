using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Dispatch;

/// <summary>What follows from an answer that is not a clear success.</summary>
public static class AnswerPolicy
{
    /// <summary>Status of the attempt and what to call it.</summary>
    /// <param name="answer">The target's answer, or that there was none.</param>
    /// <param name="wrote">True if the request could have changed something at the target.</param>
    public static (AttemptStatus Status, ProblemKind Kind) Judge(TargetAnswer answer, bool wrote)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var unclear = wrote ? AttemptStatus.Unknown : AttemptStatus.Retry;
        return answer.Kind switch
        {
            AnswerKind.NotSent => (AttemptStatus.Retry, DeliveryProblems.Unreachable),
            AnswerKind.NotSignedIn => (AttemptStatus.Retry, DeliveryProblems.SignInFailed),
            AnswerKind.NoAnswer => (unclear, wrote ? DeliveryProblems.OutcomeUnknown : DeliveryProblems.Unreachable),
            _ => answer.Status switch
            {
                >= 200 and <= 299 => (unclear, DeliveryProblems.UnusableAnswer),
                >= 300 and <= 399 => (AttemptStatus.Failed, DeliveryProblems.Redirected),
                // RFC 9110 sections 15.5.9, 15.6.3 to 15.6.5: the request may or may not have been carried out.
                408 or 502 or 503 or 504 => (unclear, wrote ? DeliveryProblems.OutcomeUnknown : DeliveryProblems.Unreachable),
                // RFC 6585 section 4.
                429 => (AttemptStatus.Retry, DeliveryProblems.TooManyRequests),
                401 or 403 => (AttemptStatus.Failed, DeliveryProblems.NotAuthorized),
                // RFC 9110 sections 15.5.10 and 15.5.13.
                409 or 412 when wrote => (AttemptStatus.Unknown, DeliveryProblems.Conflict),
                >= 400 and <= 499 => (AttemptStatus.Failed, DeliveryProblems.Refused),
                _ => (unclear, DeliveryProblems.ServerError),
            },
        };
    }
}
