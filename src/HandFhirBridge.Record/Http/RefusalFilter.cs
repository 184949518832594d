using System.Net;
using Hl7.Fhir.Model;
using Microsoft.AspNetCore.Http;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging;

namespace HandFhirBridge.Record.Http;

/// <summary>The edge: whatever goes wrong leaves as an OperationOutcome, and the log says what kind it was, without anyone's data.</summary>
/// <param name="logger">Where failures of the server go.</param>
internal sealed class RefusalFilter(ILogger logger) : IEndpointFilter
{
    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        try
        {
            MediaTypes.DemandAcceptable(context.HttpContext.Request);
            return await next(context);
        }
        catch (RecordRefusal refusal)
        {
            return new FhirResult(refusal.Outcome, (int)refusal.Status);
        }
        catch (BadHttpRequestException broken)
        {
            return Answer((HttpStatusCode)broken.StatusCode, OperationOutcome.IssueType.Invalid, "The request could not be read.");
        }
        catch (SqliteException broken)
        {
            logger.LogError("The database cannot be used: SQLite code {Code}", broken.SqliteExtendedErrorCode);
            return Answer(
                HttpStatusCode.ServiceUnavailable,
                OperationOutcome.IssueType.Transient,
                $"The database cannot be used now (SQLite code {broken.SqliteExtendedErrorCode}). Look whether it was written, then try again.");
        }
        catch (Exception bug) when (bug is not OperationCanceledException)
        {
            // Messages of exceptions may quote resources, so the log gets the kind and the place alone.
            logger.LogError("A request failed with {Kind} at {Place}", bug.GetType().Name, bug.StackTrace);
            return Answer(HttpStatusCode.InternalServerError, OperationOutcome.IssueType.Exception, "The server failed on this request. The fault is ours; see its log.");
        }
    }

    private static FhirResult Answer(HttpStatusCode status, OperationOutcome.IssueType type, string message) =>
        new(new RecordRefusal(status, type, message).Outcome, (int)status);
}
