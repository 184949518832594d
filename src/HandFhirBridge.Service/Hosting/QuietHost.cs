using Microsoft.AspNetCore.Builder;

namespace HandFhirBridge.Service.Hosting;

/// <summary>How the service's web applications are begun.</summary>
internal static class QuietHost
{
    /// <summary>A builder without the framework's own watch for changed settings.</summary>
    public static WebApplicationBuilder Builder() => WebApplication.CreateSlimBuilder(new WebApplicationOptions
    {
        ApplicationName = typeof(QuietHost).Assembly.GetName().Name,
        // The watch is over the whole working directory, where ledger and record lie as well: every page they write would wake it.
        Args = ["--hostBuilder:reloadConfigOnChange=false"],
    });
}
