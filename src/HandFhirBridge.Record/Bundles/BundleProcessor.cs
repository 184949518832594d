using System.Globalization;
using System.Net;
using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Interactions;
using HandFhirBridge.Record.Search;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;
using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Record.Bundles;

/// <summary>Carries out transactions, all or nothing, and batches, entry by entry (R4 http.html#transaction).</summary>
/// <param name="open">Opens a write session.</param>
/// <param name="search">Answers the GET entries.</param>
internal sealed class BundleProcessor(Func<RecordSession> open, Func<RecordSession, string, Resource> search)
{
    // The order the specification gives for transactions.
    private static readonly Bundle.HTTPVerb[] Order = [Bundle.HTTPVerb.DELETE, Bundle.HTTPVerb.POST, Bundle.HTTPVerb.PUT, Bundle.HTTPVerb.GET];

    public Bundle Process(Bundle bundle) => bundle.Type switch
    {
        Bundle.BundleType.Transaction => Transaction(bundle),
        Bundle.BundleType.Batch => Batch(bundle),
        _ => throw RecordRefusal.BadRequest("Only a Bundle of type transaction or batch can be carried out here.", "Bundle.type"),
    };

    private Bundle Transaction(Bundle bundle)
    {
        using var session = open();
        var writes = new Writes(session);
        var plans = bundle.Entry.Select((entry, index) => EntryPlan.Of(entry, index)).ToList();
        Demand(plans);
        foreach (var plan in plans)
        {
            plan.Settle(writes);
        }

        var places = plans.Where(p => p.Entry.FullUrl is not null && p.Place is not null).ToDictionary(p => p.Entry.FullUrl!, p => p.Place!);
        var rewriter = new ReferenceRewriter(places, writes);
        var answers = new Bundle.EntryComponent[plans.Count];
        foreach (var plan in plans.OrderBy(p => Array.IndexOf(Order, p.Verb)))
        {
            if (plan.Entry.Resource is { } resource)
            {
                rewriter.Rewrite(resource, plan.Path);
            }

            answers[plan.Index] = Carry(plan, session, writes);
        }

        session.Commit();
        return new Bundle { Type = Bundle.BundleType.TransactionResponse, Entry = [.. answers] };
    }

    private Bundle Batch(Bundle bundle)
    {
        var answer = new Bundle { Type = Bundle.BundleType.BatchResponse };
        foreach (var (entry, index) in bundle.Entry.Select((e, i) => (e, i)))
        {
            try
            {
                using var session = open();
                var writes = new Writes(session);
                var plan = EntryPlan.Of(entry, index);
                plan.Settle(writes);
                answer.Entry.Add(Carry(plan, session, writes));
                session.Commit();
            }
            catch (RecordRefusal refusal)
            {
                answer.Entry.Add(new() { Response = new() { Status = Status((int)refusal.Status), Outcome = refusal.Outcome } });
            }
        }

        return answer;
    }

    private static void Demand(List<EntryPlan> plans)
    {
        foreach (var twice in plans.Where(p => p.Entry.FullUrl is not null).GroupBy(p => p.Entry.FullUrl).Where(g => g.Count() > 1))
        {
            throw RecordRefusal.BadRequest($"Two entries have the fullUrl {twice.Key}.", "Bundle.entry.fullUrl");
        }

        foreach (var twice in plans.Where(p => p.Verb is Bundle.HTTPVerb.PUT or Bundle.HTTPVerb.DELETE).GroupBy(p => p.Url).Where(g => g.Count() > 1))
        {
            throw RecordRefusal.BadRequest($"Two entries change {twice.Key}.", "Bundle.entry.request.url");
        }
    }

    private Bundle.EntryComponent Carry(EntryPlan plan, RecordSession session, Writes writes)
    {
        if (plan.Verb == Bundle.HTTPVerb.GET)
        {
            return new() { Resource = search(session, plan.Url), Response = new() { Status = Status(200) } };
        }

        var written = plan.Write(writes);
        return written is null
            ? new() { Response = new() { Status = Status(StatusCodes.Status204NoContent) } }
            : new()
            {
                Response = new()
                {
                    Status = Status(written.Status),
                    Location = $"{written.Resource.Reference}/_history/{written.Resource.Version}",
                    Etag = written.Resource.ETag,
                    LastModified = DateTimeOffset.Parse(written.Resource.Updated, CultureInfo.InvariantCulture),
                },
            };
    }

    private static string Status(int code) => code switch
    {
        200 => "200 OK",
        201 => "201 Created",
        204 => "204 No Content",
        _ => $"{code} {(HttpStatusCode)code}",
    };
}
