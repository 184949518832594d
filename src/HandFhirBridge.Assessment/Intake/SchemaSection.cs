using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Which schema the document says it follows.</summary>
internal static class SchemaSection
{
    public static void Check(ObjectFields fields)
    {
        MustBe(fields.Required("schemaVersion"), SessionSchema.Version);
        MustBe(fields.Optional("$schema"), SessionSchema.Id);
    }

    private static void MustBe(Field field, string expected)
    {
        if (field.String() is { } written && written != expected)
        {
            field.Problems.Add(IntakeProblems.UnsupportedSchema, field.Path, $"is \"{ProblemList.Shown(written)}\"; \"{expected}\" is supported.", written);
        }
    }
}
