using System.Text.Encodings.Web;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Pages;

/// <summary>A page that says in plain words why another does not open, and what to do; needs no script.</summary>
internal static class ProblemPage
{
    /// <summary>Writes it, under the problem's status.</summary>
    /// <param name="context">The request.</param>
    /// <param name="problem">What is wrong.</param>
    /// <param name="root">The way from the page's address to the service's root, for example <c>../</c>.</param>
    public static Task WriteAsync(HttpContext context, Problem problem, string root)
    {
        var response = context.Response;
        response.StatusCode = problem.Kind.HttpStatus;
        response.ContentType = "text/html; charset=utf-8";
        PageEndpoints.WritePrivateHeaders(response.Headers);
        return response.WriteAsync(Of(problem, root), context.RequestAborted);
    }

    /// <summary>True for a browser that wants to show something; a program that asks for anything gets what all programs get.</summary>
    public static bool IsAskedBy(HttpRequest request) =>
        request.GetTypedHeaders().Accept.Any(type => type.MediaType.Equals("text/html", StringComparison.OrdinalIgnoreCase));

    /// <summary>The way from a request's address to the service's root.</summary>
    public static string RootOf(HttpRequest request) => string.Concat(Enumerable.Repeat("../", Math.Max(0, request.Path.Value!.Count(c => c == '/') - 1)));

    private static string Of(Problem problem, string root)
    {
        static string Text(string text) => HtmlEncoder.Default.Encode(text);
        return $"""
            <!doctype html>
            <html lang="en">
            <head>
              <meta charset="utf-8">
              <meta name="viewport" content="width=device-width, initial-scale=1">
              <title>{Text(problem.Kind.Title)}</title>
              <link rel="icon" href="{root}table/icon.svg" type="image/svg+xml">
              <link rel="stylesheet" href="{root}table/css/base.css">
            </head>
            <body>
              <main>
                <h1>{Text(problem.Kind.Title)}</h1>
                <p class="notice danger">{Text(problem.Message)}</p>
                <h2>What to do</h2>
                <p>{Text(problem.Remedy)}</p>
                <p class="small">{problem.Code}</p>
              </main>
            </body>
            </html>
            """;
    }
}
