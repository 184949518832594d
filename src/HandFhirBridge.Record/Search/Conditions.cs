using System.Globalization;
using Dapper;
using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Search;

/// <summary>Turns criteria into SQL over the index tables. Values travel as parameters only.</summary>
/// <param name="parameters">Collects the values.</param>
/// <param name="baseUrl">This server's base: absolute references under it are relative ones.</param>
internal sealed class Conditions(DynamicParameters parameters, string baseUrl)
{
    private int number;

    // Above so many rows, what meets a criterion is not gathered but asked for row by row.
    private const int ManyRows = 50_000;

    // Below so many, asking for each is quicker than gathering what meets another criterion.
    private const int FewRows = 500;

    /// <summary>
    /// All criteria on the row of <c>resource</c> called <paramref name="alias"/>. Search values are compared with each other before the
    /// resource is looked at, which is the larger row by far.
    /// </summary>
    /// <param name="criteria">What must hold.</param>
    /// <param name="alias">The row.</param>
    /// <param name="count">Counts rows: a FROM clause with its WHERE, and where to stop.</param>
    public string All(IReadOnlyList<Criterion> criteria, string alias, Func<string, int, int> count)
    {
        if (criteria.Count < 2 || !criteria.Any(IsEquality) || criteria.Any(c => Selectivity(c) <= MostSelective))
        {
            return string.Join(" AND ", criteria.OrderBy(Selectivity).Select((criterion, i) => One(criterion, alias, leads: i == 0)));
        }

        var equalities = criteria.Where(IsEquality).Select(c => Met(c)).ToList();
        var sized = equalities.Select(from => (From: from, Rows: equalities.Count > 1 ? count(from, ManyRows) : 0)).OrderBy(e => e.Rows).ToList();
        // The plus keeps SQLite from asking for the rows of the one that leads by those of another, each at a place of its own in the index.
        var others = sized.Skip(1)
            .Select(e => e.Rows < ManyRows && sized[0].Rows > FewRows ? $"+l.rid IN (SELECT v.rid {e.From})" : $"EXISTS (SELECT 1 {e.From} AND v.rid = l.rid)")
            .Concat(criteria.Where(c => !IsEquality(c) && IsOfValues(c)).OrderBy(Selectivity).Select(c => One(c, "l", leads: false)))
            .ToList();
        return string.Join(" AND ", criteria.Where(c => !IsEquality(c) && !IsOfValues(c)).OrderBy(Selectivity).Select(c => One(c, alias, leads: false))
            .Prepend($"{alias}.rid IN (SELECT l.rid FROM (SELECT v.rid {sized[0].From}) l WHERE {string.Join(" AND ", others.DefaultIfEmpty("TRUE"))})"));
    }

    // What meets it lies together in the index, so that it can be counted and gathered.
    private static bool IsEquality(Criterion criterion) => criterion is { Chains.Count: 0, Has: null } && criterion.Values.All(v => !v.EndsWith('|')) && criterion switch
    {
        { Parameter.Name: "_id" } => false,
        { Parameter.Type: SearchParamType.Token or SearchParamType.Uri } => criterion.Modifier is null,
        { Parameter.Type: SearchParamType.Reference } => criterion.Modifier != "missing",
        _ => false,
    };

    // Asked of search values alone, not of the resource's id.
    private static bool IsOfValues(Criterion criterion) => criterion is { Has: null } and not { Parameter.Name: "_id" };

    private string Met(Criterion criterion) => $"FROM {Table(criterion.Parameter.Type)} v WHERE v.key {In(criterion.Parameter)} AND ({Any(criterion)})";

    // An id or an identifier: nothing leads better.
    private const int MostSelective = 1;

    private static int Selectivity(Criterion criterion) => criterion switch
    {
        { Modifier: "missing" or "not" } => 9,
        { Parameter.Name: "_id" } => 0,
        { Parameter.Name: "identifier" } => 1,
        { Chains.Count: > 0 } or { Has: not null } => 2,
        { Parameter.Type: SearchParamType.Reference } => 3,
        { Parameter.Type: SearchParamType.String or SearchParamType.Composite } => 4,
        { Parameter.Type: SearchParamType.Token or SearchParamType.Uri } => 5,
        _ => 6,
    };

    private string One(Criterion criterion, string alias, bool leads)
    {
        if (criterion is { Parameter.Name: "_id", Modifier: null })
        {
            return $"{alias}.id IN ({string.Join(", ", criterion.Values.Select(v => Add(Escaping.Unescape(v))))})";
        }

        if (criterion.Has is { } has)
        {
            return Has(criterion.Parameter, has, alias);
        }

        if (criterion.Parameter.Type == SearchParamType.Composite)
        {
            return $"{alias}.rid IN (SELECT -g.rid / {IndexRow.Groups} FROM ({string.Join(" UNION ", criterion.Values.Select(v => Together(criterion.Parameter, v)))}) g)";
        }

        var from = $"FROM {Table(criterion.Parameter.Type)} v WHERE v.key {In(criterion.Parameter)}";
        var (negated, condition) = criterion switch
        {
            { Chains.Count: > 0 } => (false, $" AND ({string.Join(" OR ", criterion.Chains.Select(c => Chain(c.Type, c.Criterion)))})"),
            { Modifier: "missing" } => (Flag(criterion), ""),
            { Modifier: "not" } => (true, $" AND ({Any(criterion)})"),
            _ => (false, $" AND ({Any(criterion)})"),
        };
        return leads && !negated
            ? $"{alias}.rid IN (SELECT v.rid {from}{condition})"
            : $"{(negated ? "NOT " : "")}EXISTS (SELECT 1 {from} AND v.rid = {alias}.rid{condition})";
    }

    private string Chain(string type, Criterion criterion)
    {
        var target = string.Create(CultureInfo.InvariantCulture, $"c{++number}");
        return $"v.target IN (SELECT {target}.type || '/' || {target}.id FROM resource {target} WHERE {target}.type = {Add(type)} AND {target}.deleted = 0 AND {One(criterion, target, leads: true)})";
    }

    // Literal references within this server are stored as Type/id; '0' is the character behind '/'.
    private string Has(SearchParameter reference, Reversal has, string alias)
    {
        var source = string.Create(CultureInfo.InvariantCulture, $"c{++number}");
        return $"""
            {alias}.id IN (SELECT substr(f.target, {has.Target.Length + 2}) FROM resource {source}
              JOIN reference f ON f.rid = {source}.rid AND f.key {In(reference)} AND f.target >= {Add(has.Target + '/')} AND f.target < {Add(has.Target + '0')}
              WHERE {source}.type = {Add(has.Type)} AND {source}.deleted = 0 AND {One(has.Criterion, source, leads: true)})
            """;
    }

    // R4 search.html#composite: the parts joined by $, all of them true of one and the same element.
    private string Together(SearchParameter composite, string value)
    {
        var parts = Escaping.Split(value, '$');
        if (parts.Count != composite.Components.Count)
        {
            throw RecordRefusal.BadRequest($"{composite.Name} is \"{value}\"; it takes {composite.Components.Count} values joined by $. A $ within a value is written \\$.");
        }

        string? inner = null;
        foreach (var (part, text) in composite.Components.Zip(parts).Reverse())
        {
            var condition = Value(new(part, null, [], []), text);
            inner = $"SELECT v.rid FROM {Table(part.Type)} v WHERE v.key {In(part)} AND ({condition}){(inner is null ? "" : $" AND v.rid IN ({inner})")}";
        }

        return inner!;
    }

    // Numbers of ours, not values of a request.
    private static string In(SearchParameter parameter) => $"IN ({string.Join(", ", parameter.Keys)})";

    private static string Table(SearchParamType type) => type switch
    {
        SearchParamType.Token or SearchParamType.Uri => "token",
        SearchParamType.Reference => "reference",
        SearchParamType.Date => "span",
        SearchParamType.String => "text",
        _ => "amount",
    };

    private static bool Flag(Criterion criterion) => criterion.Values switch
    {
        ["true"] => true,
        ["false"] => false,
        _ => throw RecordRefusal.BadRequest($"{criterion.Parameter.Name}:missing takes true or false."),
    };

    private string Any(Criterion criterion) => string.Join(" OR ", criterion.Values.Select(v => $"({Value(criterion, v)})"));

    private string Value(Criterion criterion, string value) => criterion.Parameter.Type switch
    {
        SearchParamType.Token => SystemAndCode(value, "v.code"),
        SearchParamType.Uri => Uri(criterion, Escaping.Unescape(value)),
        SearchParamType.Reference => Reference(criterion, value),
        SearchParamType.Date => Comparisons.Date(criterion.Parameter.Name, value, Add),
        SearchParamType.String => Text(criterion, Escaping.Unescape(value)),
        _ => Comparisons.Amount(criterion.Parameter.Name, value, Add),
    };

    // R4 search.html#token: code in any system; system|code; |code without system; system| with any code.
    private string SystemAndCode(string value, string code) => Escaping.Split(value, '|') switch
    {
        [var any] => $"{code} = {Add(Escaping.Unescape(any))}",
        [var system, ""] when system.Length > 0 => $"v.system = {Add(Escaping.Unescape(system))}",
        [var system, var one] when one.Length > 0 => $"{code} = {Add(Escaping.Unescape(one))} AND v.system = {Add(Escaping.Unescape(system))}",
        _ => throw RecordRefusal.BadRequest($"\"{value}\" is not code, system|code, |code or system|. A bar within a value is written \\|."),
    };

    private string Uri(Criterion criterion, string value) => criterion.Modifier == "below" ? Beginning("v.code", value) : $"v.code = {Add(value)}";

    private string Reference(Criterion criterion, string value)
    {
        if (criterion.Modifier == "identifier")
        {
            return SystemAndCode(value, "v.value");
        }

        var target = ReferenceText.Relative(Escaping.Unescape(value), baseUrl);
        string[] relative = target.Contains('/', StringComparison.Ordinal) || target.Contains(':', StringComparison.Ordinal)
            ? [target]
            : criterion.Modifier is { } type ? [$"{type}/{target}"] : [.. criterion.Parameter.Targets.Select(t => $"{t}/{target}")];
        var forms = relative.SelectMany(r => r.Contains(':', StringComparison.Ordinal) ? [r] : new[] { r, $"{baseUrl}/{r}" });
        return $"v.target IN ({string.Join(", ", forms.Select(Add))})";
    }

    private string Text(Criterion criterion, string value) => criterion.Modifier switch
    {
        "exact" => $"v.exact = {Add(value)}",
        "contains" => $"instr(v.plain, {Add(PlainText.Of(value))}) > 0",
        _ => Beginning("v.plain", PlainText.Of(value)),
    };

    // A range instead of LIKE: it uses the index and has no wildcards to escape. U+10FFFF is behind every character.
    private string Beginning(string column, string value) => $"{column} >= {Add(value)} AND {column} < {Add(value + "\U0010FFFF")}";

    private string Add(object value)
    {
        var name = "p" + (++number).ToString(CultureInfo.InvariantCulture);
        parameters.Add(name, value);
        return "@" + name;
    }
}
