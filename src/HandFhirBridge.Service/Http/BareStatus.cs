using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Service.Pages;
using HandFhirBridge.Service.Pipeline;
using Microsoft.AspNetCore.Diagnostics;

namespace HandFhirBridge.Service.Http;

/// <summary>Gives refusals that the framework makes by itself (not signed in, no such address) the body that all others have.</summary>
internal static class BareStatus
{
    public static Task AnswerAsync(StatusCodeContext context)
    {
        var request = context.HttpContext.Request;
        var status = context.HttpContext.Response.StatusCode;
        if (IsPage(request) && ProblemPage.IsAskedBy(request))
        {
            return ProblemPage.WriteAsync(context.HttpContext, ProblemOf(status, request), ProblemPage.RootOf(request));
        }

        return FhirResults.Resource(Output.OutcomeResource.Of([ProblemOf(status, request)]), status).ExecuteAsync(context.HttpContext);
    }

    // Reports are what people open by a link; all else is asked by programs and scripts.
    private static bool IsPage(HttpRequest request) =>
        request.HttpContext.GetEndpoint() is not null && HttpMethods.IsGet(request.Method)
        && (request.Path.StartsWithSegments("/report", StringComparison.Ordinal) || request.Path.StartsWithSegments("/chart/report", StringComparison.Ordinal));

    private static Problem ProblemOf(int status, HttpRequest request) => status switch
    {
        StatusCodes.Status401Unauthorized => ServiceProblems.NotSignedIn.At("", "The request carries no token or key that is valid here."),
        StatusCodes.Status403Forbidden => ServiceProblems.NotAllowed.At("", "The token or key does not carry the scope this needs."),
        StatusCodes.Status415UnsupportedMediaType => ServiceProblems.UnsupportedMediaType.At(
            "", $"The body is declared as {request.ContentType ?? "nothing"}, not as JSON.", request.ContentType),
        _ => ServiceProblems.NoSuchAddress.At("", $"{request.Method} {request.Path} is not to be had (HTTP {status}).", request.Path),
    };
}
