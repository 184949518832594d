using HandFhirBridge.Record.Export;
using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Storage;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;

namespace HandFhirBridge.Record;

/// <summary>Puts the embedded record into an ASP.NET Core application.</summary>
public static class RecordRegistration
{
    /// <summary>Adds the record's services. The database is opened, and made if it does not exist, by <see cref="MapFhirRecord"/>.</summary>
    public static IServiceCollection AddFhirRecord(this IServiceCollection services, RecordOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        services.TryAddSingleton(TimeProvider.System);
        services.AddSingleton(options);
        services.AddSingleton(provider => new RecordDatabase(options.DatabasePath, provider.GetRequiredService<TimeProvider>()));
        services.AddSingleton<ExportJobs>();
        return services;
    }

    /// <summary>
    /// Serves the FHIR R4 API under <paramref name="basePath"/>, for example <c>/fhir</c>. Each endpoint carries a <see cref="RecordEndpoint"/>, by which
    /// a group around it can ask for sign-in; answers are <see cref="IRecordAnswer"/> or have a status.
    /// </summary>
    /// <exception cref="InvalidDataException">The database file was made by another version of the record.</exception>
    public static IEndpointConventionBuilder MapFhirRecord(this IEndpointRouteBuilder endpoints, string basePath)
    {
        ArgumentNullException.ThrowIfNull(endpoints);
        ArgumentException.ThrowIfNullOrEmpty(basePath);
        var group = endpoints.MapGroup(basePath);
        var path = '/' + basePath.Trim('/');
        ActivatorUtilities.CreateInstance<RecordRoutes>(endpoints.ServiceProvider, path).Map(group);
        ((IEndpointConventionBuilder)group).Finally(endpoint => RecordEndpoint.Mark(endpoint, path));
        return group;
    }
}
