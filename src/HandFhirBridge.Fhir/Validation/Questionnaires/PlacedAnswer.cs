using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Questionnaires;

/// <summary>An answer and where it stands.</summary>
/// <param name="Answer">The answer.</param>
/// <param name="Location">Its FHIRPath.</param>
internal sealed record PlacedAnswer(QuestionnaireResponse.AnswerComponent Answer, string Location);
