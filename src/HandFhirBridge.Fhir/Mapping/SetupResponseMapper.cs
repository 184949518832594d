using HandFhirBridge.Fhir.Mapping.Narratives;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>How the table was laid, what was asked before and what is needed to judge the times, as a response to the set-up Questionnaire.</summary>
internal static class SetupResponseMapper
{
    public static QuestionnaireResponse Map(SessionContext context) => new()
    {
        Id = ResourceIds.Of(IdentifierSystems.SetupResponse, context.Keys.Session),
        Meta = context.Meta(Canonicals.SetupResponse),
        Text = SetupNarrative.Of(context),
        Extension = [new(Extensions.SessionRevision, new PositiveInt(context.Session.Revision))],
        Identifier = new Identifier(IdentifierSystems.SetupResponse, context.Keys.Session),
        Questionnaire = Canonicals.SetupQuestionnaire,
        Status = context.IsCorrection
            ? QuestionnaireResponse.QuestionnaireResponseStatus.Amended
            : QuestionnaireResponse.QuestionnaireResponseStatus.Completed,
        Subject = People.Patient(context),
        Encounter = People.Encounter(context),
        AuthoredElement = new FhirDateTime(context.Session.EndedAt),
        Author = People.Performer(context),
        Source = People.Performer(context),
        Item = SetupItems.Of(context),
    };
}
