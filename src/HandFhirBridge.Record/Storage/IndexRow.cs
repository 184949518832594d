namespace HandFhirBridge.Record.Storage;

/// <summary>One value of one search parameter of one resource, ready to be stored in the table of its kind.</summary>
internal abstract record IndexRow(string Param)
{
    public abstract string Sql { get; }

    /// <summary>The row's columns for the resource with the internal number <paramref name="rid"/>.</summary>
    public object With(long rid) => this switch
    {
        TokenRow r => new { rid, r.Param, r.System, r.Code },
        ReferenceRow r => new { rid, r.Param, r.Target, r.System, r.Value },
        SpanRow r => new { rid, r.Param, r.Low, r.High },
        TextRow r => new { rid, r.Param, r.Plain, r.Exact },
        AmountRow r => new { rid, r.Param, r.Low, r.High, r.Value, r.System, r.Code, r.Unit },
        _ => throw new InvalidOperationException(GetType().Name),
    };
}

internal sealed record TokenRow(string Param, string System, string Code) : IndexRow(Param)
{
    public override string Sql => "INSERT INTO token (rid, param, system, code) VALUES (@rid, @Param, @System, @Code)";
}

internal sealed record ReferenceRow(string Param, string Target, string System, string Value) : IndexRow(Param)
{
    public override string Sql => "INSERT INTO reference (rid, param, target, system, value) VALUES (@rid, @Param, @Target, @System, @Value)";
}

internal sealed record SpanRow(string Param, long Low, long High) : IndexRow(Param)
{
    public override string Sql => "INSERT INTO span (rid, param, low, high) VALUES (@rid, @Param, @Low, @High)";
}

internal sealed record TextRow(string Param, string Plain, string Exact) : IndexRow(Param)
{
    public override string Sql => "INSERT INTO text (rid, param, plain, exact) VALUES (@rid, @Param, @Plain, @Exact)";
}

internal sealed record AmountRow(string Param, double Low, double High, double Value, string System, string Code, string Unit) : IndexRow(Param)
{
    public override string Sql =>
        "INSERT INTO amount (rid, param, low, high, value, system, code, unit) VALUES (@rid, @Param, @Low, @High, @Value, @System, @Code, @Unit)";
}
