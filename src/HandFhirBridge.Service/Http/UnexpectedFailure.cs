using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Service.Pipeline;
using Microsoft.AspNetCore.Diagnostics;

namespace HandFhirBridge.Service.Http;

/// <summary>The edge where what nobody expected becomes an answer: an OperationOutcome without a word of the inside.</summary>
internal static class UnexpectedFailure
{
    public static Task AnswerAsync(HttpContext context)
    {
        var failure = context.Features.Get<IExceptionHandlerFeature>()?.Error;
        var problem = failure is LedgerException
            ? ServiceProblems.LedgerUnusable.At("", "The ledger cannot be used now; nothing was accepted.")
            : ServiceProblems.Unexpected.At("", "Something went wrong that should not have; nothing was accepted.");
        return FhirResults.Refused(problem).ExecuteAsync(context);
    }
}
