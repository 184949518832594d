namespace HandFhirBridge.Fhir.Validation.Schemas;

/// <summary>Issue numbers of rules that this project adds to compiled schemas; above those the library uses.</summary>
internal static class OwnIssues
{
    internal const int WrongTarget = 9001;
}
