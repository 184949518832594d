namespace HandFhirBridge.Delivery.Ledger.Sql;

/// <summary>A query as a condition over table s, with the values it names.</summary>
internal sealed class SqlChoice
{
    public SqlChoice(LedgerQuery query)
    {
        Values = new()
        {
            ["State"] = query.State is { } state ? SessionRow.Word(state) : null,
            ["Site"] = query.Site,
            ["SessionId"] = query.SessionId,
            ["ProblemCode"] = query.ProblemCode,
            ["Target"] = query.Target,
            ["Take"] = query.Take,
            ["Skip"] = query.Skip,
        };
        var conditions = new[]
        {
            query.Unsent ? "s.state IN ('accepted', 'sending', 'held', 'failed')" : null,
            query.State is null ? null : "s.state = @State",
            query.Site is null ? null : "s.site = @Site",
            query.SessionId is null ? null : "s.session_id = @SessionId",
            query.ProblemCode is null ? null : "s.problem_code = @ProblemCode",
            query.Target is null ? null : "s.target = @Target",
        }.OfType<string>();
        Where = string.Join(" AND ", conditions.DefaultIfEmpty("TRUE"));
    }

    /// <summary>Condition; true for all where the query does not choose.</summary>
    public string Where { get; }

    /// <summary>Values of its parameters; more may be added.</summary>
    public Dictionary<string, object?> Values { get; }
}
