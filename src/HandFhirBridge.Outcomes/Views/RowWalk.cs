using HandFhirBridge.Outcomes.Views.Definitions;
using HandFhirBridge.Outcomes.Views.Paths;
using Hl7.Fhir.FhirPath;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Outcomes.Views;

/// <summary>The way through one resource: fills rows, and multiplies them where elements are unnested.</summary>
/// <param name="context">Holds constants and <c>%rowIndex</c>.</param>
/// <param name="usesRowIndex">False spares keeping it.</param>
internal sealed class RowWalk(FhirEvaluationContext context, bool usesRowIndex)
{
    // JSON of FHIR is not read deeper than this by common parsers; a path such as $this would never end.
    private const int DepthLimit = 128;

    /// <summary>Sets <c>%rowIndex</c>.</summary>
    public void At(int index)
    {
        if (usesRowIndex)
        {
            context.Environment[ViewPathCompiler.RowIndex] = [PocoNode.ForPrimitive(new Integer(index))];
        }
    }

    /// <summary>The rows so far, each with what the selection adds in one element.</summary>
    /// <param name="step">Selection.</param>
    /// <param name="focus">The element; null for the row of an element that is not there.</param>
    /// <param name="index">The element's index.</param>
    /// <param name="rows">Rows so far; they are filled in place.</param>
    public List<object?[]> Body(RowStep step, PocoNode? focus, int index, List<object?[]> rows)
    {
        foreach (var cell in step.Cells)
        {
            At(index);
            var value = cell.Value(focus, context);
            foreach (var row in rows)
            {
                row[cell.Place] = value;
            }
        }

        foreach (var inner in step.Steps)
        {
            rows = Apply(inner, focus, index, rows);
        }

        if (step.Branches.IsEmpty)
        {
            return rows;
        }

        var united = new List<object?[]>();
        foreach (var branch in step.Branches)
        {
            united.AddRange(Apply(branch, focus, index, Copy(rows)));
        }

        return united;
    }

    private List<object?[]> Apply(RowStep step, PocoNode? focus, int index, List<object?[]> rows)
    {
        if (rows.Count == 0)
        {
            return rows;
        }

        if (step.Unnesting == Unnesting.None)
        {
            return Body(step, focus, index, rows);
        }

        At(index);
        var elements = step.Unnesting == Unnesting.Repeat ? Repeated(step, focus, 0) : step.Over[0].Nodes(focus, context);
        if (elements.Count == 0)
        {
            return step.Unnesting == Unnesting.ForEachOrNull ? Body(step, null, 0, rows) : [];
        }

        var multiplied = new List<object?[]>(rows.Count * elements.Count);
        for (var i = 0; i < elements.Count; i++)
        {
            multiplied.AddRange(Body(step, elements[i], i, i == elements.Count - 1 ? rows : Copy(rows)));
        }

        return multiplied;
    }

    private List<PocoNode> Repeated(RowStep step, PocoNode? focus, int depth)
    {
        var found = new List<PocoNode>();
        foreach (var path in step.Over)
        {
            foreach (var element in path.Nodes(focus, context))
            {
                found.Add(element);
                found.AddRange(depth < DepthLimit ? Repeated(step, element, depth + 1) : throw new ViewException(ViewProblems.InvalidPath.At(
                    path.Path.Location, $"Repeating \"{path.Path.Expression}\" does not come to an end.", path.Path.Expression)));
            }
        }

        return found;
    }

    private static List<object?[]> Copy(List<object?[]> rows) => rows.ConvertAll(row => (object?[])row.Clone());
}
