using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Storage;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;

namespace HandFhirBridge.Record;

/// <summary>Puts the embedded record into an ASP.NET Core application.</summary>
public static class RecordRegistration
{
    /// <summary>Adds the record's services; opens the database, and makes it if it does not exist.</summary>
    public static IServiceCollection AddFhirRecord(this IServiceCollection services, RecordOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        services.TryAddSingleton(TimeProvider.System);
        services.AddSingleton(options);
        services.AddSingleton(new RecordDatabase(options.DatabasePath));
        services.AddSingleton<RecordHandlers>();
        return services;
    }

    /// <summary>Serves the FHIR R4 API under <paramref name="basePath"/>, for example <c>/fhir</c>.</summary>
    public static IEndpointConventionBuilder MapFhirRecord(this IEndpointRouteBuilder endpoints, string basePath)
    {
        ArgumentNullException.ThrowIfNull(endpoints);
        var handlers = endpoints.ServiceProvider.GetRequiredService<RecordHandlers>();
        var group = endpoints.MapGroup(basePath);
        group.AddEndpointFilter(new RefusalFilter());
        group.MapGet("/metadata", handlers.Metadata);
        group.MapPost("/", handlers.BundleAsync);
        group.MapGet("/{type}", handlers.Search);
        group.MapPost("/{type}/_search", handlers.SearchByPostAsync);
        group.MapPost("/{type}", handlers.CreateAsync);
        group.MapPut("/{type}", handlers.ConditionalUpdateAsync);
        group.MapGet("/{type}/{id}", handlers.Read);
        group.MapPut("/{type}/{id}", handlers.UpdateAsync);
        group.MapDelete("/{type}/{id}", handlers.Delete);
        group.MapGet("/{type}/{id}/_history", handlers.History);
        group.MapGet("/{type}/{id}/_history/{version:long}", handlers.ReadVersion);
        return group;
    }
}
