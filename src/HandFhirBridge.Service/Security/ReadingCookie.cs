using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;

namespace HandFhirBridge.Service.Security;

/// <summary>
/// Lets a browser that showed a key open pages that are reached by links, which carry none: reports and outcomes. The cookie is
/// encrypted, out of the page's reach, good for these pages alone, and short.
/// </summary>
internal static class ReadingCookie
{
    public const string SchemeName = "reading-session";
    private const string CookieName = "hfb-reading";
    private static readonly PathString[] Pages = ["/report", "/outcomes"];
    private static readonly TimeSpan Lifetime = TimeSpan.FromMinutes(15);

    public static void AddReadingCookie(this AuthenticationBuilder authentication) => authentication.AddCookie(SchemeName, cookie =>
    {
        cookie.Cookie.Name = CookieName;
        cookie.Cookie.Path = "/";
        cookie.Cookie.HttpOnly = true;
        cookie.Cookie.SameSite = SameSiteMode.Strict;
        cookie.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        cookie.ExpireTimeSpan = Lifetime;
        cookie.SlidingExpiration = false;
        cookie.Events.OnRedirectToLogin = context => Answer(context.Response, StatusCodes.Status401Unauthorized);
        cookie.Events.OnRedirectToAccessDenied = context => Answer(context.Response, StatusCodes.Status403Forbidden);
    });

    /// <summary>True where a request has nothing but the cookie to show.</summary>
    public static bool IsFor(HttpRequest request) =>
        Array.Exists(Pages, page => request.Path.StartsWithSegments(page, StringComparison.Ordinal)) && request.Headers.Authorization.Count == 0 && request.Cookies.ContainsKey(CookieName);

    /// <summary>Gives it to the caller, with what of their scopes these pages ask for.</summary>
    public static Task GiveAsync(HttpContext context) => context.SignInAsync(SchemeName, new ClaimsPrincipal(new ClaimsIdentity(
        [.. context.User.FindAll("sub").Take(1), new Claim("scope", string.Join(' ', new[] { Scopes.Read, Scopes.Outcomes }.Where(scope => SecurityRegistration.Holds(context.User, scope))))], SchemeName, "sub", null)));

    private static Task Answer(HttpResponse response, int status)
    {
        response.StatusCode = status;
        return Task.CompletedTask;
    }
}
