using System.Net;
using System.Text.Json.Nodes;

namespace HandFhirBridge.Pages.Tests.Charts;

/// <summary>A browser as far as sign-in goes: keeps cookies and follows redirects one by one.</summary>
internal sealed class UserAgent : IDisposable
{
    private readonly HttpClient http = new(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = new CookieContainer() }, disposeHandler: true);

    /// <summary>Goes to an address and on, to the first that is no redirect or that <paramref name="stop"/> says.</summary>
    public async Task<(Uri At, HttpStatusCode Status, string Body)> GoAsync(Uri address, Func<Uri, bool>? stop = null)
    {
        while (true)
        {
            using var answer = await http.GetAsync(address, TestContext.Current.CancellationToken);
            if (answer.Headers.Location is not { } next)
            {
                return (address, answer.StatusCode, await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
            }

            address = new Uri(address, next);
            if (stop?.Invoke(address) == true)
            {
                return (address, answer.StatusCode, "");
            }
        }
    }

    /// <summary>Opens the page from the record and answers at its sign-in; stops at the answer that goes back to the page, or goes through.</summary>
    public async Task<(Uri At, HttpStatusCode Status, string Body)> LaunchAsync(SmartRecord record, string mode, string patient = "p", bool through = true)
    {
        var signIn = await GoAsync(new(record.Service, $"chart/launch?iss={Uri.EscapeDataString(record.Iss)}&launch=opened-in-the-record"));
        signIn.Body.ShouldStartWith("Sign in");
        return await GoAsync(new($"{signIn.At}/as/{mode}?patient={patient}"), at => !through && at.AbsolutePath == "/chart/callback");
    }

    /// <summary>The course, as the page asks for it.</summary>
    public async Task<(HttpStatusCode Status, JsonNode Body)> CourseAsync(SmartRecord record)
    {
        var answer = await GoAsync(new(record.Service, "chart/course"));
        return (answer.Status, JsonNode.Parse(answer.Body)!);
    }

    public void Dispose() => http.Dispose();
}
