using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Operations.Stats;

/// <summary>The measurements of one code, and how many were left out and why.</summary>
/// <param name="code">The code, as it was asked for or as it stands in a panel.</param>
internal sealed class MeasuredCode(CodeableConcept code)
{
    private const string Ucum = "http://unitsofmeasure.org";
    private readonly List<Measurement> values = [];
    private readonly SortedDictionary<string, int> leftOut = [];

    public CodeableConcept Code => code;

    /// <summary>What contributes to statistics, as it was taken in.</summary>
    public IReadOnlyList<Measurement> Values => values;

    /// <summary>How many do not contribute, by the reason.</summary>
    public IReadOnlyDictionary<string, int> LeftOut => leftOut;

    /// <summary>Observations that say they were entered in error; they are not counted anywhere.</summary>
    public int Errors { get; private set; }

    /// <summary>"the total number of valid measurements ..., including observations that were ignored because they did not contain valid result values".</summary>
    public int Total => values.Count + leftOut.Values.Sum();

    /// <param name="source">Observation that the value stands in.</param>
    /// <param name="value">Value of the Observation or of one of its components; null for none.</param>
    /// <param name="isModified">True where a modifier extension stands beside the value.</param>
    /// <param name="at">When it was measured, in ticks; null if not known.</param>
    public void Take(Observation source, DataType? value, bool isModified, long? at)
    {
        if (source.Status == ObservationStatus.EnteredInError)
        {
            Errors++;
        }
        else if (Fault(source, value, isModified) is { } fault)
        {
            leftOut[fault] = leftOut.GetValueOrDefault(fault) + 1;
        }
        else
        {
            var quantity = (Quantity)value!;
            values.Add(new(quantity.Value!.Value, quantity, at, source));
        }
    }

    private static string? Fault(Observation source, DataType? value, bool isModified) => (source.Status, value) switch
    {
        (ObservationStatus.Cancelled, _) => "cancelled, not measured to its end",
        (ObservationStatus.Registered or null, _) => "registered, without a result yet",
        // "A modifier extension may affect the observation.value in a way that it should be excluded from the calculations."
        _ when isModified || source.ModifierExtension.Count > 0 => "with a modifier extension, whose meaning is not known here",
        (_, not Quantity) => "without a quantity",
        // A bound is not a value: the mean of bounds and values is a number that nobody measured.
        (_, Quantity { Comparator: not null }) => "with a comparator, such as > for what was stopped at its limit",
        (_, Quantity { ValueElement.JsonValue: not decimal }) => "without a number that can be calculated with",
        // "resources having valueQuantity elements that have UCUM unit codes".
        (_, Quantity { System: not Ucum } or Quantity { Code: null }) => "without a unit code of UCUM",
        _ => null,
    };
}
