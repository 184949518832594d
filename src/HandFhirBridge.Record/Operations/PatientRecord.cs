using System.Globalization;
using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Interactions;
using HandFhirBridge.Record.Search;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Operations;

/// <summary>
/// <c>$everything</c> of one Patient (R4 OperationDefinition/Patient-everything): the patient, whatever refers to it, and what those refer to.
/// Other patients are left out, even where a group or a relative's record names them.
/// </summary>
/// <param name="session">Where it reads.</param>
/// <param name="baseUrl">This server's base.</param>
internal sealed class PatientRecord(RecordSession session, string baseUrl)
{
    private const string Columns = "r.type, r.id, r.version, r.updated, r.deleted, r.json";

    /// <summary>The parameters that lead to a patient: they make the patient's compartment (R4 compartmentdefinition-patient.html).</summary>
    public static IReadOnlyList<Search.SearchParameter> Referring { get; } =
    [
        .. ResourceTypes.All.SelectMany(t => SearchParameters.Of(t).Values)
            .Where(p => p.Type == SearchParamType.Reference && p.Targets.Contains("Patient")),
    ];

    /// <summary>Their keys in the index.</summary>
    public static IReadOnlySet<long> ReferringKeys { get; } = Referring.SelectMany(p => p.Keys).ToHashSet();

    private static IReadOnlyList<long> DateKeys { get; } =
        [.. ResourceTypes.All.Select(t => SearchParameters.Of(t).GetValueOrDefault("date")).OfType<Search.SearchParameter>().SelectMany(p => p.Keys)];

    /// <summary>The searchset Bundle as JSON.</summary>
    /// <exception cref="RecordRefusal">404 or 410 for the patient, 400 for a parameter.</exception>
    public string Run(string id, IReadOnlyList<KeyValuePair<string, string>> parameters)
    {
        var patient = new ReadInteraction(session).Current("Patient", id);
        var (low, high, since, types) = Read(parameters);
        var own = session.Rows(
            $"""
            SELECT DISTINCT {Columns} FROM reference f JOIN resource r ON r.rid = f.rid AND r.deleted = 0
              WHERE f.key IN @ReferringKeys AND f.target IN @targets AND r.type <> 'Patient'
                AND (NOT EXISTS (SELECT 1 FROM span v WHERE v.rid = r.rid AND v.key IN @DateKeys)
                  OR EXISTS (SELECT 1 FROM span v WHERE v.rid = r.rid AND v.key IN @DateKeys AND v.high >= @low AND v.low <= @high))
              ORDER BY r.rid
            """,
            new { ReferringKeys, DateKeys, targets = new[] { patient.Reference, $"{baseUrl}/{patient.Reference}" }, low, high }).Prepend(patient).ToList();
        List<StoredResource> support = [.. own.SelectMany(Support).DistinctBy(r => r.Reference).ExceptBy(own.Select(o => o.Reference), r => r.Reference)];
        var page = new SearchPage(null, Wanted(own), Wanted(support), null);
        var query = new SearchQuery("Patient", [], [], [], int.MaxValue, null, false, Excerpt.Whole, parameters);
        return new BundleText(baseUrl).SearchSet(query, page with { Total = page.Matches.Count }, $"/{id}/$everything");

        List<StoredResource> Wanted(List<StoredResource> resources) =>
            [.. resources.Where(r => (types.Count == 0 || types.Contains(r.Type)) && (since is null || r.LastModified >= since))];
    }

    private IEnumerable<StoredResource> Support(StoredResource source) => session.Rows(
        $"""
        SELECT DISTINCT {Columns} FROM resource s JOIN reference f ON f.rid = s.rid
          JOIN resource r ON r.type = substr(f.target, 1, instr(f.target, '/') - 1) AND r.id = substr(f.target, instr(f.target, '/') + 1)
          WHERE s.type = @Type AND s.id = @Id AND r.deleted = 0 AND r.type <> 'Patient'
        """,
        source);

    private static (long Low, long High, DateTimeOffset? Since, IReadOnlyList<string> Types) Read(IReadOnlyList<KeyValuePair<string, string>> parameters)
    {
        var (low, high, since, types) = (long.MinValue, long.MaxValue, (DateTimeOffset?)null, new List<string>());
        foreach (var (name, value) in parameters)
        {
            switch (name)
            {
                case "start":
                    low = Date(name, value).Low;
                    break;
                case "end":
                    high = Date(name, value).High;
                    break;
                case "_since":
                    since = new DateTimeOffset(Date(name, value).Low, TimeSpan.Zero);
                    break;
                case "_type":
                    types.AddRange(value.Split(','));
                    break;
                case "_format" or "_pretty":
                    break;
                default:
                    throw RecordRefusal.BadRequest($"$everything does not know the parameter \"{name}\"; it takes start, end, _since and _type, and answers in one Bundle.");
            }
        }

        return types.Find(t => !ResourceTypes.Has(t)) is { } unknown
            ? throw RecordRefusal.BadRequest($"_type names \"{unknown}\", which is not a resource type of FHIR R4.")
            : (low, high, since, types);
    }

    private static DateSpan Date(string name, string value) => DateSpan.Parse(value) ?? throw RecordRefusal.BadRequest(
        string.Create(CultureInfo.InvariantCulture, $"{name} is \"{value}\", which is not a date of FHIR, such as 2026-03-01."));
}
