using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Reads the set-up response.</summary>
internal static class SetupReading
{
    private static readonly string[] Links =
    [
        SetupLinks.InstrumentId, SetupLinks.InstrumentVersion, SetupLinks.StartedAt, SetupLinks.EndedAt, SetupLinks.PerformerRole,
        SetupLinks.FamilyName, SetupLinks.BirthDate, SetupLinks.SexForNorm, SetupLinks.Precaution, SetupLinks.Glasses, SetupLinks.TemplateBoard,
        SetupLinks.CapInForce, SetupLinks.CapSeconds, SetupLinks.TableHeight, SetupLinks.ChairHeight, SetupLinks.EdgeToItems,
        SetupLinks.BetweenItems, SetupLinks.ItemReplaced, SetupLinks.Comment,
    ];

    private static readonly string[] PrecautionLinks =
    [
        SetupLinks.PrecautionAsked, SetupLinks.PrecautionAnswer, SetupLinks.PrecautionRulesOut, SetupLinks.PrecautionHands, SetupLinks.PrecautionNote,
    ];

    private static readonly string[] ReplacedLinks = [SetupLinks.ItemReplacedItem, SetupLinks.ItemReplacedBy];

    public static SetupFacts Read(QuestionnaireResponse response, Place place)
    {
        if (response.Questionnaire != Canonicals.SetupQuestionnaire)
        {
            place.At("questionnaire").NotUnderstood(response.Questionnaire, Canonicals.SetupQuestionnaire);
        }

        var answers = new Answers(response.Item, Links, place);
        return new(
            answers.Text(SetupLinks.InstrumentId),
            answers.Text(SetupLinks.InstrumentVersion),
            answers.Moment(SetupLinks.StartedAt),
            answers.Moment(SetupLinks.EndedAt),
            answers.Choice<PerformerRole>(SetupLinks.PerformerRole, CodeSystems.PerformerRole),
            answers.Text(SetupLinks.FamilyName),
            answers.Day(SetupLinks.BirthDate),
            answers.Choice<SexForNorm>(SetupLinks.SexForNorm, CodeSystems.Gender),
            [.. answers.Groups(SetupLinks.Precaution, PrecautionLinks).Select(Precaution)],
            Setup(answers),
            answers.Text(SetupLinks.Comment, required: false));
    }

    // Facts that could not be read were noted, so the defaults below go no further than this reading.
    private static Setup Setup(Answers answers) => new(
        answers.Choice<Glasses>(SetupLinks.Glasses, CodeSystems.Setup) ?? default,
        answers.Flag(SetupLinks.TemplateBoard) ?? default,
        Cap(answers),
        answers.Length(SetupLinks.TableHeight),
        answers.Length(SetupLinks.ChairHeight),
        answers.Length(SetupLinks.EdgeToItems),
        answers.Length(SetupLinks.BetweenItems),
        [.. answers.Groups(SetupLinks.ItemReplaced, ReplacedLinks).Select(Replaced)],
        Kit: null);

    private static decimal? Cap(Answers answers)
    {
        if (answers.Flag(SetupLinks.CapInForce) is not { } inForce)
        {
            return null;
        }

        if (inForce)
        {
            return answers.Seconds(SetupLinks.CapSeconds);
        }

        if (answers.Has(SetupLinks.CapSeconds))
        {
            answers.PlaceOf(SetupLinks.CapSeconds).Contradicts("answered", "no cap was in force");
        }

        return null;
    }

    private static PrecautionAsked Precaution(Answers group) => new(
        group.Code(SetupLinks.PrecautionAsked, CodeSystems.Precaution) ?? "",
        group.Choice<PrecautionAnswer>(SetupLinks.PrecautionAnswer, CodeSystems.Setup) ?? default,
        [.. group.Codes(SetupLinks.PrecautionRulesOut, CodeSystems.Task)],
        [.. Hands(group)],
        group.Text(SetupLinks.PrecautionNote, required: false));

    private static IEnumerable<Hand> Hands(Answers group) => group.Codes(SetupLinks.PrecautionHands, CodeSystems.Hand)
        .Select(code => Elements.Member<Hand>(code, group.PlaceOf(SetupLinks.PrecautionHands)) ?? default);

    private static ItemReplaced Replaced(Answers group) => new(
        group.Code(SetupLinks.ItemReplacedItem, CodeSystems.Material) ?? "",
        group.Text(SetupLinks.ItemReplacedBy) ?? "");
}
