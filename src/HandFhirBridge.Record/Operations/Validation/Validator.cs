using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Interactions;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;
using static Hl7.Fhir.Model.OperationOutcome;

namespace HandFhirBridge.Record.Operations.Validation;

/// <summary>
/// <c>$validate</c>: the content as it is checked on writing, and the write itself, carried out and undone. What this server refuses is what
/// is reported, nothing less, and beside it what the profile that is asked for, and those that the resource claims, forbid.
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
        List<IssueComponent> issues = [];
        IReadOnlyList<RecordProfile> profiles = [];
        if (request.Mode == "delete")
        {
            issues.AddRange(await TryAsync((session, _) => new DeleteInteraction(session).Run(request.Type, request.Id!, ifMatch), cancellation));
        }
        else
        {
            var content = request.Body?.Check() ?? Standing(request.Type, request.Id!);
            issues.AddRange([.. content.Faults, .. Doubts(request, content.Resource)]);
            if (content.Faults.Count == 0 && !HasError(issues))
            {
                profiles = Profiles(request, content.Resource!);
                issues.AddRange(profiles.SelectMany(profile => options.Profiles!.Check(content.Resource!, profile)));
                issues.AddRange(await TryAsync(request, content.Demand(), ifMatch, ifNoneExist, cancellation));
            }
        }

        return new() { Issue = HasError(issues) ? issues : [.. issues, Done(profiles)] };
    }

    private static bool HasError(List<IssueComponent> issues) => issues.Exists(i => i.Severity is IssueSeverity.Error or IssueSeverity.Fatal);

    private List<RecordProfile> Profiles(ValidationRequest request, Resource resource) =>
    [
        .. (options.Profiles?.All ?? []).Where(profile =>
            profile == request.Profile || (profile.Type == request.Type && Claims(resource).Any(profile.IsMeantBy))),
    ];

    private static IEnumerable<string> Claims(Resource resource) => (resource.Meta?.Profile ?? []).OfType<string>();

    private CheckedResource Standing(string type, string id)
    {
        using var session = database.Read();
        return JsonBody.Of(System.Text.Encoding.UTF8.GetBytes(new ReadInteraction(session).Current(type, id).Json!)).Check();
    }

    // What holds for any mode: the type is the URL's, and a profile that is claimed and not known was not looked at.
    private IEnumerable<IssueComponent> Doubts(ValidationRequest request, Resource? resource)
    {
        if (resource is not null && resource.TypeName != request.Type)
        {
            yield return RecordRefusal.Issue(
                IssueSeverity.Error, IssueType.Invalid, $"The resource is a {resource.TypeName}, the URL asks for a {request.Type}.", resource.TypeName);
        }

        if (resource is null)
        {
            yield break;
        }

        RecordProfile[] known = [RecordProfile.Base(resource.TypeName), .. (options.Profiles?.All ?? []).Where(profile => profile.Type == resource.TypeName)];
        foreach (var (i, claimed) in Claims(resource).Index())
        {
            if (!known.Any(profile => profile.IsMeantBy(claimed)))
            {
                yield return RecordRefusal.Issue(
                    IssueSeverity.Warning, IssueType.NotSupported, $"This server does not know the profile {claimed}; whether the resource conforms to it is not known.", $"{resource.TypeName}.meta.profile[{i}]");
            }
        }
    }

    private async Task<IReadOnlyList<IssueComponent>> TryAsync(ValidationRequest request, ReceivedResource received, string? ifMatch, string? ifNoneExist, CancellationToken cancellation) => request.Mode switch
    {
        "create" => await TryAsync((session, matching) => new CreateInteraction(session, matching).Run(received, ifNoneExist), cancellation),
        "update" => await TryAsync((session, matching) => new UpdateInteraction(session, matching).Run(received, request.Id!, ifMatch), cancellation),
        _ => [],
    };

    private async Task<IReadOnlyList<IssueComponent>> TryAsync(Func<RecordSession, SingleMatch, Written> write, CancellationToken cancellation)
    {
        try
        {
            // Never committed.
            using var session = await database.WriteAsync(cancellation);
            write(session, new SingleMatch(session, options, baseUrl));
            return [];
        }
        catch (RecordRefusal refusal)
        {
            return refusal.Issues;
        }
    }

    private static IssueComponent Done(IReadOnlyCollection<RecordProfile> profiles) => RecordRefusal.Issue(
        IssueSeverity.Information,
        IssueType.Informational,
        profiles.Count == 0
            ? "No fault was found. Checked are elements, types, cardinality and required codes of base R4; invariants, other terminology and references are not."
            : $"No fault was found. Checked are elements, types, cardinality and required codes of base R4, and all that {string.Join(" and ", profiles.Select(profile => profile.Url))} asks for, its invariants and terminology included; that what is referred to exists is not.");
}
