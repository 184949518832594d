using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Outcomes;
using HandFhirBridge.Outcomes.Rows;
using HandFhirBridge.Outcomes.Summaries;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Outcomes;
using HandFhirBridge.Service.Outcomes.Web;
using HandFhirBridge.Service.Pages;
using HandFhirBridge.Service.Security;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Http;

/// <summary>How groups do, of what was gathered last: a page and files. No patient's data.</summary>
public static class OutcomeEndpoints
{
    private const string SignInPath = "/outcomes/sign-in";

    /// <summary>Maps <c>/outcomes</c>.</summary>
    public static void MapOutcomes(this IEndpointRouteBuilder endpoints)
    {
        var outcomes = endpoints.MapGroup("/outcomes").WithTags("Outcomes");
        outcomes.MapGet("", Page).AllowAnonymous().ExcludeFromDescription();
        outcomes.MapPost("/sign-in", (Delegate)SignInAsync).AllowAnonymous().ExcludeFromDescription();
        var asked = outcomes.MapGroup("").RequireAuthorization(Scopes.Outcomes);
        asked.MapGet("/summary.json", (HttpRequest request, BridgeSettings settings, BridgeParts parts) => Answer(request, settings, parts, s => Results.Ok(SummaryJson.Of(s))))
            .WithSummary("How groups do: by=NAME (several), where=NAME=VALUE (several). Small groups are held back.").Produces<object>().ProducesOutcome(400, 404);
        asked.MapGet("/summary.csv", (HttpRequest request, BridgeSettings settings, BridgeParts parts) =>
                Answer(request, settings, parts, s => Csv(SummaryTables.GroupColumns(s.Question), SummaryTables.Groups(s))))
            .WithSummary("The groups as a comma-separated file.").Produces<string>(StatusCodes.Status200OK, "text/csv").ProducesOutcome(400, 404);
        asked.MapGet("/changes.csv", (HttpRequest request, BridgeSettings settings, BridgeParts parts) =>
                Answer(request, settings, parts, s => Csv(SummaryTables.ChangeColumns(s.Question), SummaryTables.Changes(s))))
            .WithSummary("Their changes as a comma-separated file.").Produces<string>(StatusCodes.Status200OK, "text/csv").ProducesOutcome(400, 404);
    }

    private static IResult Page(HttpContext context, BridgeSettings settings, BridgeParts parts)
    {
        PageEndpoints.WritePrivateHeaders(context.Response.Headers);
        if (!SecurityRegistration.MayAsk(context.User))
        {
            return Html(SummaryPage.SignIn(refused: context.User.Identity?.IsAuthenticated == true), StatusCodes.Status401Unauthorized);
        }

        var (summary, problem) = Find(context.Request, settings, parts);
        return summary is null
            ? Html(SummaryPage.Of($"{problem!.Message} {problem.Remedy} ({problem.Code})"), problem.Kind.HttpStatus)
            : Html(SummaryPage.Of(summary, context.Request.QueryString.Value ?? ""), StatusCodes.Status200OK);
    }

    /// <summary>Has the key that the form sends checked as if it had come in the header; before anybody is signed in.</summary>
    public static void UseKeyOfForm(this IApplicationBuilder application) => application.UseWhen(
        context => context.Request.Path == SignInPath && HttpMethods.IsPost(context.Request.Method) && context.Request.HasFormContentType,
        form => form.Use(async (context, next) =>
        {
            context.Request.Headers.Authorization = $"Bearer {(await context.Request.ReadFormAsync(context.RequestAborted))["key"].ToString().Trim()}";
            await next(context);
        }));

    private static async Task<IResult> SignInAsync(HttpContext context)
    {
        PageEndpoints.WritePrivateHeaders(context.Response.Headers);
        if (!SecurityRegistration.MayAsk(context.User))
        {
            return Html(SummaryPage.SignIn(refused: true), StatusCodes.Status401Unauthorized);
        }

        await ReadingCookie.GiveAsync(context);
        return Results.LocalRedirect("~/outcomes");
    }

    private static IResult Answer(HttpRequest request, BridgeSettings settings, BridgeParts parts, Func<OutcomeSummary, IResult> form)
    {
        request.HttpContext.Response.Headers.CacheControl = "no-store";
        var (summary, problem) = Find(request, settings, parts);
        return summary is null ? FhirResults.Refused(problem!) : form(summary);
    }

    private static (OutcomeSummary? Summary, Problem? Problem) Find(HttpRequest request, BridgeSettings settings, BridgeParts parts)
    {
        var told = request.Query["by"] is { Count: > 0 } by ? by.OfType<string>() : SummaryAsking.Usual.Select(SummaryAsking.NameOf);
        // A form has one field for several filters.
        var filters = request.Query["where"].OfType<string>().SelectMany(w => w.Split(' ', StringSplitOptions.RemoveEmptyEntries));
        // How small a group may be is the house's decision, not the asker's.
        var question = SummaryAsking.Question(told, filters, settings.Outcomes.SmallestGroup, parts.MeasurementErrors);
        if (question.Value is not { } clear)
        {
            return (null, question.Problems[0]);
        }

        try
        {
            return (SummaryAsking.Ask(settings, clear), null);
        }
        catch (OutcomeException none)
        {
            return (null, none.Problem);
        }
    }

    private static IResult Csv(IReadOnlyList<string> columns, IEnumerable<object?[]> rows)
    {
        using var text = new StringWriter();
        RowText.WriteCsv(columns, rows, text);
        return Results.Text(text.ToString(), "text/csv; charset=utf-8");
    }

    private static IResult Html(string page, int status) => Results.Text(page, "text/html; charset=utf-8", statusCode: status);
}
