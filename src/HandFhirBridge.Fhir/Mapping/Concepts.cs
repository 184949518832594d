using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Codings and concepts we write.</summary>
internal static class Concepts
{
    public static Coding Coded(string system, string code) => new(system, code, Displays.Of(system, code));

    public static Coding Coded<T>(string system, T value)
        where T : struct, Enum => Coded(system, WireName.Of(value));

    public static Coding Measure(string code, string display) => new(CodeSystems.Measure, code, display);

    /// <summary>A concept with exactly one coding.</summary>
    public static CodeableConcept Concept(Coding coding) => new() { Coding = [coding] };

    /// <summary>Categories of a measured hand function, each a concept of its own: other profiles ask for one or the other and slice by concept.</summary>
    public static List<CodeableConcept> MeasuredFunction() =>
    [
        Survey(),
        Concept(new(CodeSystems.ObservationCategory, "exam", "Exam")),
        Concept(new(CodeSystems.UsCoreCategory, "functional-status", "Functional Status")),
        Concept(new(CodeSystems.Icf, "d440", "Fine hand use")),
    ];

    public static CodeableConcept Survey() => Concept(new(CodeSystems.ObservationCategory, "survey", "Survey"));

    public static CodeableConcept Interpretation(string code, string display) => Concept(new(CodeSystems.Interpretation, code, display));

    /// <summary>Why there is no value; <paramref name="text"/> is the reason in words, null if none was given.</summary>
    public static CodeableConcept Absent(string code, string display, string? text) =>
        new() { Coding = [new(CodeSystems.AbsentReason, code, display)], Text = text };
}
