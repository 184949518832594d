using System.Collections.Immutable;
using HandFhirBridge.Outcomes.Views.Definitions;
using HandFhirBridge.Outcomes.Views.Paths;
using Hl7.Fhir.FhirPath;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Outcomes.Views;

/// <summary>Turns resources into rows as a ViewDefinition of SQL on FHIR v2 says. Safe for several threads.</summary>
public sealed class ViewRunner
{
    private readonly RowStep root;
    private readonly bool usesRowIndex;
    private readonly ImmutableArray<ViewExpression> where;
    private readonly ImmutableArray<KeyValuePair<string, IEnumerable<PocoNode>>> constants;

    /// <summary>Compiles a view.</summary>
    /// <param name="definition">The view.</param>
    /// <exception cref="ViewException">It cannot be run.</exception>
    public ViewRunner(ViewDefinition definition)
    {
        ArgumentNullException.ThrowIfNull(definition);
        var paths = new ViewPathCompiler(definition.Constants.ToDictionary(c => c.Name, c => c.Value));
        var compiler = new ViewCompiler(paths);
        root = compiler.Compile(new ViewSelect(Unnesting.None, [], [], definition.Select, [], "$"));
        where = [.. definition.Where.Select(paths.Values)];
        constants = [.. definition.Constants.Select(c => KeyValuePair.Create<string, IEnumerable<PocoNode>>(c.Name, [PocoNode.ForPrimitive(c.Value)]))];
        usesRowIndex = paths.UsesRowIndex;
        Resource = definition.Resource;
        Name = definition.Name;
        Columns = compiler.Columns;
    }

    /// <summary>Name of the view.</summary>
    public string Name { get; }

    /// <summary>Resource type the view reads; others give no row.</summary>
    public string Resource { get; }

    /// <summary>Columns in the order of the cells of a row.</summary>
    public ImmutableArray<RowColumn> Columns { get; }

    /// <summary>Rows of one resource; cells in the order of <see cref="Columns"/>, null where there is no value.</summary>
    /// <param name="resource">The resource.</param>
    /// <exception cref="ViewException">A value of it does not fit the view.</exception>
    public IReadOnlyList<object?[]> Rows(Resource resource)
    {
        ArgumentNullException.ThrowIfNull(resource);
        if (resource.TypeName != Resource)
        {
            return [];
        }

        var node = resource.ToPocoNode();
        var context = new FhirEvaluationContext { Resource = node, RootResource = node };
        foreach (var constant in constants)
        {
            context.Environment.Add(constant);
        }

        var walk = new RowWalk(context, usesRowIndex);
        walk.At(0);
        return where.All(condition => Holds(condition.Path, condition.Values(node, context)))
            ? walk.Body(root, node, 0, [new object?[Columns.Length]])
            : [];
    }

    private static bool Holds(ViewPath path, IReadOnlyList<Base> result) => result switch
    {
        [] => false,
        [PrimitiveType { JsonValue: bool holds }] => holds,
        _ => throw new ViewException(ViewProblems.NotACondition.At(
            path.Location, $"The condition \"{path.Expression}\" gives something else than true or false.", path.Expression)),
    };
}
