using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Service.Pages;
using HandFhirBridge.Service.Settings;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.OAuth;

namespace HandFhirBridge.Service.Charts.Smart;

/// <summary>Sign-in of users of a record to the chart page.</summary>
internal static class SmartRegistration
{
    /// <summary>Scheme of the sign-in.</summary>
    public const string SignIn = "smart";

    /// <summary>Scheme of the cookie that holds the access afterwards, encrypted and out of the page's reach.</summary>
    public const string Session = "smart-session";

    /// <summary>Adds both; they serve the chart page alone.</summary>
    public static void AddSmart(this IServiceCollection services, BridgeSettings settings)
    {
        services.AddSingleton<SmartDiscovery>();
        var secure = settings.Chart.PublicAddress?.Scheme == "https" ? CookieSecurePolicy.Always : CookieSecurePolicy.SameAsRequest;
        services.AddAuthentication()
            .AddCookie(Session, cookie =>
            {
                cookie.Cookie.Name = "hfb-chart";
                cookie.Cookie.HttpOnly = true;
                // Sent when a record in another site opens the page, and with no request that another site makes for it.
                cookie.Cookie.SameSite = SameSiteMode.Lax;
                cookie.Cookie.SecurePolicy = secure;
                cookie.SlidingExpiration = false;
            })
            .AddOAuth<OAuthOptions, SmartHandler>(SignIn, oauth =>
            {
                oauth.SignInScheme = Session;
                oauth.CallbackPath = "/chart/callback";
                oauth.UsePkce = true;
                oauth.SaveTokens = true;
                oauth.CorrelationCookie.SameSite = SameSiteMode.Lax;
                oauth.CorrelationCookie.SecurePolicy = secure;
                // Each sign-in has those of its server instead; the framework asks for some.
                oauth.ClientId = oauth.ClientSecret = SignIn;
                oauth.AuthorizationEndpoint = oauth.TokenEndpoint = "https://server.invalid/";
                oauth.Events.OnAccessDenied = denied => AnswerAsync(denied, ChartProblems.UserRefused.At("", "Access to the record was not given."));
                oauth.Events.OnRemoteFailure = failed => AnswerAsync(failed, Of(failed.Failure));
            });
    }

    private static Task AnswerAsync<T>(HandleRequestContext<T> context, Problem problem)
        where T : AuthenticationSchemeOptions
    {
        context.HandleResponse();
        return ProblemPage.WriteAsync(context.HttpContext, problem, "../");
    }

    private static Problem Of(Exception? failure) => failure switch
    {
        SmartRefusedException refused => refused.Problem,
        _ when failure?.Data["error"] is string error => ChartProblems.SignInRefused.At(
            "", $"The record refused the sign-in: {error}{(failure.Data["error_description"] is string why ? $" ({why})" : "")}."),
        _ => ChartProblems.SignInNotBegunHere.At("state", "This answer belongs to no sign-in that this browser began, or to one begun too long ago."),
    };
}
