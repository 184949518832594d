namespace HandFhirBridge.Assessment.Sessions;

/// <summary>What finds the chart and what must agree with it. Never a name alone.</summary>
/// <param name="Identifier">Identifier the chart is searched by.</param>
/// <param name="FamilyName">Must agree with the chart.</param>
/// <param name="BirthDate">Must agree with the chart; also gives the age on the day of the session.</param>
public sealed record PatientIdentity(BusinessIdentifier Identifier, string FamilyName, DateOnly BirthDate);
