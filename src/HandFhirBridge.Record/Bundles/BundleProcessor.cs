using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Interactions;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Bundles;

/// <summary>Carries out transactions, all or nothing, and batches, entry by entry (R4 http.html#transaction).</summary>
/// <param name="database">Opens the write transactions.</param>
/// <param name="options">Page sizes of searches.</param>
/// <param name="baseUrl">This server's base.</param>
/// <param name="preference">What the client prefers to get back.</param>
internal sealed class BundleProcessor(RecordDatabase database, RecordOptions options, string baseUrl, Preference preference)
{
    // R4 http.html#trules: the order in which a transaction is carried out, whatever the order of its entries.
    private static readonly Bundle.HTTPVerb[] Order = [Bundle.HTTPVerb.DELETE, Bundle.HTTPVerb.POST, Bundle.HTTPVerb.PUT, Bundle.HTTPVerb.GET];

    /// <summary>The answer as a Bundle in JSON.</summary>
    public async Task<string> ProcessAsync(ReceivedResource received, CancellationToken cancellation)
    {
        return received.Resource is Bundle bundle
            ? bundle.Type switch
            {
                Bundle.BundleType.Transaction => BundleText.Answers("transaction-response", await TransactionAsync(received, bundle, cancellation)),
                Bundle.BundleType.Batch => BundleText.Answers("batch-response", await BatchAsync(received, bundle, cancellation)),
                _ => throw RecordRefusal.BadRequest("Only a Bundle of type transaction or batch can be carried out here.", "Bundle.type"),
            }
            : throw RecordRefusal.BadRequest("Only a Bundle can be posted to the base. Post other resources to their type.");
    }

    private async Task<EntryAnswer[]> TransactionAsync(ReceivedResource received, Bundle bundle, CancellationToken cancellation)
    {
        var plans = bundle.Entry.Select((entry, i) => Plan(received, entry, i)).ToList();
        TransactionRules.DemandDistinctEntries(plans);
        using var session = await database.WriteAsync(cancellation);
        var matching = new SingleMatch(session, options, baseUrl);
        Settle(plans, matching);

        var runner = new EntryRunner(session, matching, options, baseUrl, preference);
        var answers = new EntryAnswer[plans.Count];
        foreach (var plan in plans.OrderBy(p => Array.IndexOf(Order, p.Request.Verb)))
        {
            answers[plan.Index] = At(plan, () => runner.Run(plan));
        }

        session.Commit();
        return answers;
    }

    // Every condition is tested on the state before the transaction, so that the order of entries makes no difference.
    private static void Settle(List<EntryPlan> plans, SingleMatch matching)
    {
        foreach (var plan in plans)
        {
            At(plan, () =>
            {
                plan.Settle(matching);
                return true;
            });
        }

        TransactionRules.DemandDistinctPlaces(plans);
        var places = plans.Where(p => p.Entry.FullUrl is not null && p.Received is not null).ToDictionary(p => p.Entry.FullUrl!, p => p.Place!);
        var rewriter = new ReferenceRewriter(places, matching);
        foreach (var plan in plans.Where(p => p.Received is not null && !p.Stands))
        {
            rewriter.Rewrite(plan);
        }
    }

    private async Task<EntryAnswer[]> BatchAsync(ReceivedResource received, Bundle bundle, CancellationToken cancellation)
    {
        var answers = new List<EntryAnswer>();
        foreach (var (i, entry) in bundle.Entry.Index())
        {
            try
            {
                var plan = Plan(received, entry, i);
                using var session = plan.Request.Verb == Bundle.HTTPVerb.GET ? database.Read() : await database.WriteAsync(cancellation);
                var matching = new SingleMatch(session, options, baseUrl);
                // Entries of a batch do not know each other (R4 http.html#brules), so a reference by urn: leads nowhere and is refused.
                Settle([plan], matching);
                answers.Add(At(plan, () => new EntryRunner(session, matching, options, baseUrl, preference).Run(plan)));
                session.Commit();
            }
            catch (RecordRefusal refusal)
            {
                answers.Add(new((int)refusal.Status, Outcome: refusal.Outcome));
            }
        }

        return [.. answers];
    }

    private EntryPlan Plan(ReceivedResource received, Bundle.EntryComponent entry, int index)
    {
        var request = EntryRequest.Of(entry, $"Bundle.entry[{index}]", baseUrl);
        return new(index, entry, request, entry.Resource is null ? null : new(entry.Resource, received.Json.GetProperty("entry")[index].GetProperty("resource")));
    }

    private static T At<T>(EntryPlan plan, Func<T> work)
    {
        try
        {
            return work();
        }
        catch (RecordRefusal refusal)
        {
            throw refusal.At(plan.Path);
        }
    }
}
