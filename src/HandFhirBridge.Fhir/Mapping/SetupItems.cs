using System.Globalization;
using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;
using Item = Hl7.Fhir.Model.QuestionnaireResponse.ItemComponent;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Answers of the set-up Questionnaire in its order; a question without an answer is left out.</summary>
internal static class SetupItems
{
    public static List<Item> Of(SessionContext context) =>
    [
        .. Head(context.Session),
        .. context.Session.Precautions.Select(asked => Precaution(asked, context.Words)),
        .. Table(context.Session.Setup),
        .. context.Session.Setup.ItemsReplaced.Select(replaced => Replaced(replaced, context.Words)),
        .. Text(SetupLinks.Comment, context.Session.Comment),
    ];

    private static IEnumerable<Item> Head(Session session) =>
    [
        Item(SetupLinks.InstrumentId, new FhirString(session.Instrument.Id)),
        Item(SetupLinks.InstrumentVersion, new FhirString(session.Instrument.Version)),
        Item(SetupLinks.StartedAt, new FhirDateTime(session.StartedAt)),
        Item(SetupLinks.EndedAt, new FhirDateTime(session.EndedAt)),
        Item(SetupLinks.PerformerRole, Concepts.Coded(CodeSystems.PerformerRole, session.Performer.Role)),
        Item(SetupLinks.FamilyName, new FhirString(session.Patient.FamilyName)),
        Item(SetupLinks.BirthDate, new Date(session.Patient.BirthDate.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture))),
        Item(SetupLinks.SexForNorm, Concepts.Coded(CodeSystems.Gender, session.SexForNorm)),
    ];

    private static Item Precaution(PrecautionAsked asked, InstrumentWords words) => new()
    {
        LinkId = SetupLinks.Precaution,
        Item =
        [
            Item(SetupLinks.PrecautionAsked, Concepts.Coded(CodeSystems.Precaution, asked.Precaution)),
            Item(SetupLinks.PrecautionAnswer, Concepts.Coded(CodeSystems.Setup, asked.Answer)),
            .. Several(SetupLinks.PrecautionRulesOut, asked.RulesOut.Select(words.CodedTask)),
            .. Several(SetupLinks.PrecautionHands, asked.Hands.Select(hand => Concepts.Coded(CodeSystems.Hand, hand))),
            .. Text(SetupLinks.PrecautionNote, asked.Note),
        ],
    };

    private static IEnumerable<Item> Table(Setup setup) =>
    [
        Item(SetupLinks.Glasses, Concepts.Coded(CodeSystems.Setup, setup.Glasses)),
        Item(SetupLinks.TemplateBoard, new FhirBoolean(setup.TemplateBoard)),
        Item(SetupLinks.CapInForce, new FhirBoolean(setup.CapSeconds is not null)),
        .. setup.CapSeconds is { } cap ? [Item(SetupLinks.CapSeconds, Quantities.Seconds(cap))] : Array.Empty<Item>(),
        .. Length(SetupLinks.TableHeight, setup.TableHeight),
        .. Length(SetupLinks.ChairHeight, setup.ChairHeight),
        .. Length(SetupLinks.EdgeToItems, setup.EdgeToItems),
        .. Length(SetupLinks.BetweenItems, setup.BetweenItems),
    ];

    private static Item Replaced(ItemReplaced replaced, InstrumentWords words) => new()
    {
        LinkId = SetupLinks.ItemReplaced,
        Item =
        [
            Item(SetupLinks.ItemReplacedItem, words.CodedMaterial(replaced.Item)),
            Item(SetupLinks.ItemReplacedBy, new FhirString(replaced.ReplacedBy)),
        ],
    };

    private static Item[] Length(string link, Length? length) => length is null ? [] : [Item(link, Quantities.Of(length))];

    private static Item[] Text(string link, string? text) => text is null ? [] : [Item(link, new FhirString(text))];

    private static Item[] Several(string link, IEnumerable<DataType> values)
    {
        var item = Item(link, [.. values]);
        return item.Answer.Count == 0 ? [] : [item];
    }

    private static Item Item(string link, params DataType[] values) =>
        new() { LinkId = link, Answer = [.. values.Select(value => new QuestionnaireResponse.AnswerComponent { Value = value })] };
}
