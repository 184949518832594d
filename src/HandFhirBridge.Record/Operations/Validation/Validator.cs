using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Interactions;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;
using static Hl7.Fhir.Model.OperationOutcome;

namespace HandFhirBridge.Record.Operations.Validation;

/// <summary>
/// <c>$validate</c>: the content as it is checked on writing, and the write itself, carried out and undone. What this server refuses is what
/// is reported, nothing else and nothing less.
/// </summary>
/// <param name="database">Opens the write that is undone.</param>
/// <param name="options">Limits.</param>
/// <param name="baseUrl">This server's base.</param>
internal sealed class Validator(RecordDatabase database, RecordOptions options, string baseUrl)
{
    /// <param name="request">What is asked for.</param>
    /// <param name="ifMatch">ETag of the version the client knows; null asks for none.</param>
    /// <param name="ifNoneExist">Condition of the create; null for none.</param>
    /// <param name="cancellation">Ends the wait for the writer's turn.</param>
    /// <exception cref="RecordRefusal">404 or 410: there is no such resource to validate.</exception>
    public async Task<OperationOutcome> RunAsync(ValidationRequest request, string? ifMatch, string? ifNoneExist, CancellationToken cancellation)
    {
        if (request.Mode == "delete")
        {
            return await TryAsync([], (session, _) => new DeleteInteraction(session).Run(request.Type, request.Id!, ifMatch), cancellation);
        }

        var content = request.Body?.Check() ?? Standing(request.Type, request.Id!);
        var issues = content.Faults.Concat(Doubts(request, content.Resource)).ToList();
        return content.Faults.Count > 0 || issues.Exists(i => i.Severity == IssueSeverity.Error) ? new() { Issue = issues } : request.Mode switch
        {
            "create" => await TryAsync(issues, (session, matching) => new CreateInteraction(session, matching).Run(content.Demand(), ifNoneExist), cancellation),
            "update" => await TryAsync(issues, (session, matching) => new UpdateInteraction(session, matching).Run(content.Demand(), request.Id!, ifMatch), cancellation),
            _ => Outcome(issues),
        };
    }

    private CheckedResource Standing(string type, string id)
    {
        using var session = database.Read();
        return JsonBody.Of(System.Text.Encoding.UTF8.GetBytes(new ReadInteraction(session).Current(type, id).Json!)).Check();
    }

    // What holds for any mode: the type is the URL's, and a profile that is claimed was not looked at.
    private static IEnumerable<IssueComponent> Doubts(ValidationRequest request, Resource? resource)
    {
        if (resource is not null && resource.TypeName != request.Type)
        {
            yield return RecordRefusal.Issue(
                IssueSeverity.Error, IssueType.Invalid, $"The resource is a {resource.TypeName}, the URL asks for a {request.Type}.", resource.TypeName);
        }

        foreach (var (i, profile) in (resource?.Meta?.Profile ?? []).Index())
        {
            yield return RecordRefusal.Issue(
                IssueSeverity.Warning, IssueType.NotSupported, $"This server has no profiles; whether the resource conforms to {profile} is not known.", $"{resource!.TypeName}.meta.profile[{i}]");
        }
    }

    private async Task<OperationOutcome> TryAsync(List<IssueComponent> issues, Func<RecordSession, SingleMatch, Written> write, CancellationToken cancellation)
    {
        try
        {
            // Never committed.
            using var session = await database.WriteAsync(cancellation);
            write(session, new SingleMatch(session, options, baseUrl));
            return Outcome(issues);
        }
        catch (RecordRefusal refusal)
        {
            return new() { Issue = [.. issues, .. refusal.Issues] };
        }
    }

    private static OperationOutcome Outcome(List<IssueComponent> issues) => new()
    {
        Issue =
        [
            .. issues,
            RecordRefusal.Issue(
                IssueSeverity.Information,
                IssueType.Informational,
                "No fault was found. Checked are elements, types, cardinality and required codes of base R4; invariants, other terminology and references are not."),
        ],
    };
}
