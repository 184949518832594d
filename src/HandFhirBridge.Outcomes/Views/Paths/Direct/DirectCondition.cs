using Hl7.Fhir.Model;

namespace HandFhirBridge.Outcomes.Views.Paths.Direct;

/// <summary>A condition over directly followed paths; null where FHIRPath gives nothing.</summary>
internal abstract class DirectCondition
{
    public abstract bool? Holds(Base? focus);

    /// <summary><c>exists()</c>, and <c>empty()</c> as its contrary.</summary>
    public sealed class Exists(DirectPath path, bool wanted) : DirectCondition
    {
        public override bool? Holds(Base? focus) => path.Select(focus).Count > 0 == wanted;
    }

    /// <summary>A path equals a text or a boolean (FHIRPath, "= (Equals)"): nothing where the path gives nothing; texts are compared as they are.</summary>
    public sealed class Equal(DirectPath path, object value, bool wanted) : DirectCondition
    {
        public override bool? Holds(Base? focus) => path.Select(focus) switch
        {
            [] => null,
            [var one] => Is(one, value) == wanted,
            _ => !wanted,
        };
    }

    /// <summary>A text is among what a path gives.</summary>
    public sealed class In(string text, DirectPath path) : DirectCondition
    {
        public override bool? Holds(Base? focus) => path.Select(focus).Exists(element => Is(element, text));
    }

    /// <summary><c>and</c>, with the truth table of FHIRPath.</summary>
    public sealed class And(DirectCondition left, DirectCondition right) : DirectCondition
    {
        public override bool? Holds(Base? focus) => left.Holds(focus) is var holds && holds == false ? false : holds & right.Holds(focus);
    }

    /// <summary><c>or</c>, with the truth table of FHIRPath.</summary>
    public sealed class Or(DirectCondition left, DirectCondition right) : DirectCondition
    {
        public override bool? Holds(Base? focus) => left.Holds(focus) is var holds && holds == true ? true : holds | right.Holds(focus);
    }

    // Dates and times are of other types than texts, however they are written.
    private static bool Is(Base element, object wanted) =>
        element is PrimitiveType { JsonValue: { } value } and not (Date or FhirDateTime or Time or Instant or Integer64) && value.Equals(wanted);
}
