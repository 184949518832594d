using HandFhirBridge.Assessment.Problems;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Rules;

/// <summary>Every quantity carries a unit code of <see cref="UnitCodes"/>, in UCUM's own spelling.</summary>
internal sealed class UnitRule : IResourceRule
{
    /// <inheritdoc/>
    public IEnumerable<Problem> Check(Resource root, Finding finding)
    {
        List<Problem> problems = [];
        ElementWalk<Quantity>.Over(root, (quantity, walk) =>
        {
            if (quantity.System != UnitCodes.System || quantity.Code is null)
            {
                problems.Add(finding.At(
                    ValidationProblems.UnitMissing,
                    walk.Location,
                    $"The quantity's unit is not a UCUM code (unit '{quantity.Unit}', system '{quantity.System}', code '{quantity.Code}')."));
            }
            else if (!UnitCodes.All.Contains(quantity.Code))
            {
                problems.Add(finding.At(
                    ValidationProblems.UnitNotKnown,
                    walk.Location + ".code",
                    $"Unit code '{quantity.Code}' is none of {string.Join(", ", UnitCodes.All.Order(StringComparer.Ordinal))}."));
            }
        });
        return problems;
    }
}
