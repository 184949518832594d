using System.Collections.Immutable;
using HandFhirBridge.Outcomes.Views.Definitions;
using HandFhirBridge.Outcomes.Views.Paths;

namespace HandFhirBridge.Outcomes.Views;

/// <summary>Compiles a view: checks its columns, gives each its place in the row, compiles every expression once.</summary>
/// <param name="paths">Compiles expressions.</param>
internal sealed class ViewCompiler(ViewPathCompiler paths)
{
    private readonly List<ViewColumn> columns = [];
    private readonly Dictionary<string, int> places = [];

    public ImmutableArray<RowColumn> Columns => [.. columns.Select(RowColumn.Of)];

    public RowStep Compile(ViewSelect select)
    {
        var over = select.Over.Select(paths.Nodes).ToImmutableArray();
        var cells = select.Columns.Select(Cell).ToImmutableArray();
        var steps = select.Select.Select(Compile).ToImmutableArray();
        return new(select.Unnesting, over, cells, steps, Union(select));
    }

    private RowCell Cell(ViewColumn column)
    {
        if (!places.TryAdd(column.Name, columns.Count))
        {
            throw new ViewException(ViewProblems.ColumnTwice.At(column.Path.Location, $"The view has two columns named {column.Name}.", column.Name));
        }

        columns.Add(column);
        return new(columns.Count - 1, RowColumn.Of(column), paths.Values(column.Path));
    }

    // The first branch gives the columns their places; the others fill the same ones.
    private ImmutableArray<RowStep> Union(ViewSelect select)
    {
        if (select.UnionAll is not [var first, .. var others])
        {
            return [];
        }

        var start = columns.Count;
        var branches = ImmutableArray.CreateBuilder<RowStep>();
        branches.Add(Compile(first));
        var shared = columns[start..].ToImmutableArray();
        foreach (var other in others)
        {
            branches.Add(Branch(other, start, shared));
        }

        return branches.ToImmutable();
    }

    private RowStep Branch(ViewSelect select, int start, ImmutableArray<ViewColumn> shared)
    {
        foreach (var column in shared)
        {
            places.Remove(column.Name);
        }

        columns.RemoveRange(start, shared.Length);
        var branch = Compile(select);
        var own = columns[start..].ToImmutableArray();
        return own.Select(Shape).SequenceEqual(shared.Select(Shape)) ? branch : throw new ViewException(ViewProblems.UnionDiffers.At(
            select.Location, $"A selection of a unionAll has the columns {ViewColumn.Names(own)} where the first has {ViewColumn.Names(shared)}.",
            remedy: "Give all selections of a unionAll columns of the same names and types in the same order."));
    }

    private static (string Name, ColumnKind Kind, bool Collection) Shape(ViewColumn column) =>
        RowColumn.Of(column) is var shape ? (shape.Name, shape.Kind, shape.Collection) : default;
}
