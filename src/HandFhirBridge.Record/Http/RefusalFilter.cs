using Hl7.Fhir.Model;
using Microsoft.AspNetCore.Http;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Record.Http;

/// <summary>Turns refusals into OperationOutcomes, and a database that cannot be written into 503, so that the caller tries again.</summary>
internal sealed class RefusalFilter : IEndpointFilter
{
    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        try
        {
            return await next(context);
        }
        catch (RecordRefusal refusal)
        {
            return new FhirResult(refusal.Outcome, (int)refusal.Status);
        }
        catch (SqliteException broken)
        {
            var outcome = new RecordRefusal(
                System.Net.HttpStatusCode.ServiceUnavailable, OperationOutcome.IssueType.Transient, $"The database cannot be used now (SQLite code {broken.SqliteErrorCode}). Try again.").Outcome;
            return new FhirResult(outcome, StatusCodes.Status503ServiceUnavailable);
        }
    }
}
