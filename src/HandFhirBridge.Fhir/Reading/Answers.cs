using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;
using Item = Hl7.Fhir.Model.QuestionnaireResponse.ItemComponent;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Answers of one level of a response. Every question may stand once, but for groups that repeat.</summary>
internal sealed class Answers
{
    private readonly ILookup<string, Item> items;
    private readonly Place place;

    /// <summary>Answers among <paramref name="items"/>.</summary>
    /// <param name="items">Items of the level.</param>
    /// <param name="links">Link ids that may stand here.</param>
    /// <param name="place">Where they stand.</param>
    public Answers(IEnumerable<Item> items, IReadOnlyCollection<string> links, Place place)
    {
        this.items = items.ToLookup(item => item.LinkId ?? "");
        this.place = place;
        foreach (var link in this.items.Select(group => group.Key).Where(link => !links.Contains(link)))
        {
            place.At("item.linkId").NotUnderstood(link, "a question of the set-up Questionnaire");
        }
    }

    public string? Text(string link, bool required = true) => One<FhirString>(link, required)?.Value;

    public DateTimeOffset? Moment(string link) => One<FhirDateTime>(link) is { } value ? Elements.Moment(value, PlaceOf(link)) : null;

    public DateOnly? Day(string link)
    {
        if (One<Date>(link) is not { } value)
        {
            return null;
        }

        if (DateOnly.TryParseExact(value.Value, "yyyy-MM-dd", out var day))
        {
            return day;
        }

        PlaceOf(link).NotUnderstood(value.Value, "a whole date");
        return null;
    }

    public bool? Flag(string link) => One<FhirBoolean>(link)?.Value;

    public T? Choice<T>(string link, string system)
        where T : struct, Enum =>
        One<Coding>(link) is { } coding && Coded(coding, system, link) is { } code ? Elements.Member<T>(code, PlaceOf(link)) : null;

    public string? Code(string link, string system) => One<Coding>(link) is { } coding ? Coded(coding, system, link) : null;

    /// <summary>Codes of a question that may have several answers, in their order; none where it was not answered.</summary>
    public IEnumerable<string> Codes(string link, string system) =>
        from item in items[link]
        from answer in item.Answer
        let code = answer.Value is Coding coding ? Coded(coding, system, link) : NotACode(answer.Value, link)
        where code is not null
        select code;

    public decimal? Seconds(string link) => One<Quantity>(link) is { } quantity ? Elements.Number(quantity, Quantities.Second, PlaceOf(link)) : null;

    public Length? Length(string link)
    {
        if (One<Quantity>(link, required: false) is not { } quantity)
        {
            return null;
        }

        return quantity.Code == Quantities.Centimetre
            ? Elements.Number(quantity, Quantities.Centimetre, PlaceOf(link)) is { } centimetres ? new(centimetres, LengthUnit.Centimetre) : null
            : Elements.Number(quantity, Quantities.Inch, PlaceOf(link)) is { } inches ? new(inches, LengthUnit.Inch) : null;
    }

    /// <summary>Each occurrence of a repeating group.</summary>
    public IEnumerable<Answers> Groups(string link, IReadOnlyCollection<string> links) =>
        items[link].Select(group => new Answers(group.Item, links, PlaceOf(link)));

    /// <summary>True if the question was answered.</summary>
    public bool Has(string link) => items[link].Any();

    public Place PlaceOf(string link) => place.At($"item.where(linkId = '{link}')");

    private T? One<T>(string link, bool required = true)
        where T : DataType
    {
        var answers = items[link].SelectMany(item => item.Answer).Select(answer => answer.Value).ToList();
        switch (answers)
        {
            case [T value]:
                return value;
            case []:
                if (required)
                {
                    PlaceOf(link).Missing();
                }

                return null;
            default:
                PlaceOf(link).NotUnderstood(string.Join(", ", answers.Select(Elements.Shown)), $"one answer of type {typeof(T).Name}");
                return null;
        }
    }

    private string? Coded(Coding coding, string system, string link)
    {
        if (coding.System == system && coding.Code is { } code)
        {
            return code;
        }

        return NotACode(coding, link);
    }

    private string? NotACode(DataType? value, string link)
    {
        PlaceOf(link).NotUnderstood(Elements.Shown(value), "a code of the question's code system");
        return null;
    }
}
