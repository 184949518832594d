using HandFhirBridge.Record.Operations;
using HandFhirBridge.Record.Operations.Stats;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;
using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Record.Http;

/// <summary>Operations that read, by GET with a query or by POST of a Parameters resource (R4 operations.html#request).</summary>
/// <param name="database">Where resources lie.</param>
/// <param name="options">Limits.</param>
/// <param name="basePath">Path of the FHIR base.</param>
/// <param name="clock">Gives the time.</param>
internal sealed class OperationEndpoints(RecordDatabase database, RecordOptions options, string basePath, TimeProvider clock)
{
    public async Task<IResult> LastObservationsAsync(HttpRequest request, CancellationToken cancellation)
    {
        var parameters = await ParametersAsync(request, cancellation);
        using var session = database.Read();
        var operation = new LastObservations(session, options, RecordRoutes.BaseOf(request, basePath));
        return new FhirResult(operation.Run(parameters, Preference.Of(request).Lenient), StatusCodes.Status200OK);
    }

    public async Task<IResult> PatientRecordAsync(HttpRequest request, string id, CancellationToken cancellation)
    {
        var parameters = await ParametersAsync(request, cancellation);
        using var session = database.Read();
        return new FhirResult(new PatientRecord(session, RecordRoutes.BaseOf(request, basePath)).Run(id, parameters), StatusCodes.Status200OK);
    }

    public async Task<IResult> StatisticsAsync(HttpRequest request, CancellationToken cancellation)
    {
        var parameters = await BodyAsync(request, cancellation) ?? new Parameters();
        foreach (var (name, value) in QueryText.Parse(request.QueryString.Value ?? ""))
        {
            parameters.Add(name, new FhirString(value));
        }

        using var session = database.Read();
        var operation = new ObservationStatistics(session, options, RecordRoutes.BaseOf(request, basePath));
        return new FhirResult(operation.Run(StatsRequest.Of(parameters, clock.GetUtcNow())), StatusCodes.Status200OK);
    }

    /// <summary>Parameters of the query and of the body, in the order they came.</summary>
    public async Task<IReadOnlyList<KeyValuePair<string, string>>> ParametersAsync(HttpRequest request, CancellationToken cancellation)
    {
        List<KeyValuePair<string, string>> parameters = [.. QueryText.Parse(request.QueryString.Value ?? "")];
        if (await BodyAsync(request, cancellation) is not { } body)
        {
            return parameters;
        }

        parameters.AddRange(body.Parameter.Select((p, i) => new KeyValuePair<string, string>(p.Name!, p.Value switch
        {
            PrimitiveType { JsonValue: { } value } => Convert.ToString(value, System.Globalization.CultureInfo.InvariantCulture)!,
            ResourceReference { Reference: { } reference } => reference,
            _ => throw RecordRefusal.BadRequest($"The parameter \"{p.Name}\" has no value of a primitive type or reference, as this operation's parameters have.", $"Parameters.parameter[{i}]"),
        })));
        return parameters;
    }

    private async Task<Parameters?> BodyAsync(HttpRequest request, CancellationToken cancellation)
    {
        if (HttpMethods.IsGet(request.Method) || request.ContentLength is 0)
        {
            return null;
        }

        var received = await FhirBody.ReadAsync(request, options.MaxBodyBytes, cancellation);
        return received.Resource as Parameters
            ?? throw RecordRefusal.BadRequest($"An operation takes a Parameters resource, the body is a {received.Resource.TypeName}.");
    }
}
