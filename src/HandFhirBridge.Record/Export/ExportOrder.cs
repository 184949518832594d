namespace HandFhirBridge.Record.Export;

/// <summary>What an export is asked for.</summary>
/// <param name="Level">Whose data.</param>
/// <param name="GroupId">Id of the group at <see cref="ExportLevel.Group"/>; null otherwise.</param>
/// <param name="Url">The request as it came, without what a body held.</param>
/// <param name="BaseUrl">This server's base as the client knows it.</param>
internal sealed record ExportOrder(ExportLevel Level, string? GroupId, string Url, string BaseUrl)
{
    /// <summary>Resource types wanted; empty for all.</summary>
    public IReadOnlyList<string> Types { get; init; } = [];

    /// <summary>Only what changed after this instant; null for everything.</summary>
    public DateTimeOffset? Since { get; init; }

    /// <summary>Only these patients, as <c>Patient/id</c>; empty for all of the level.</summary>
    public IReadOnlyList<string> Patients { get; init; } = [];

    /// <summary>What of the request was left out, a sentence each.</summary>
    public IReadOnlyList<string> LeftOut { get; init; } = [];
}
