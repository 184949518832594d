namespace HandFhirBridge.Service.Security;

/// <summary>What a caller may do; each name is also the name of the authorization policy that asks for it.</summary>
public static class Scopes
{
    /// <summary>Send sessions and try them out.</summary>
    public const string Submit = "submit";

    /// <summary>Read sessions, reports and what is needed to confirm a patient.</summary>
    public const string Read = "read";

    /// <summary>Look after the ledger: hold, retry, resolve, withdraw.</summary>
    public const string Operate = "operate";

    /// <summary>See how groups do; no patient's data.</summary>
    public const string Outcomes = "outcomes";

    /// <summary>Policy for what a reader or an operator may see; no scope of its own.</summary>
    public const string ReadOrOperate = "read-or-operate";

    /// <summary>All of them.</summary>
    public static IReadOnlyList<string> All { get; } = [Submit, Read, Operate, Outcomes];
}
