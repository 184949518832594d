using System.Collections.Immutable;
using System.Runtime.ExceptionServices;
using System.Text.Json;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Outcomes.Gather;
using HandFhirBridge.Outcomes.Views;
using HandFhirBridge.Outcomes.Views.Definitions;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Outcomes.Rows;

/// <summary>Rows of a view over the gathered set. Each begins with the source it was gathered from, as keys are good within one source only.</summary>
public sealed class ViewRows
{
    /// <summary>Name of the first column.</summary>
    public const string SourceColumn = "source";

    // What servers of others hold need not be valid in every part; the elements a view reads are checked by the view.
    private static readonly FhirJsonDeserializer Deserializer = new(new DeserializerSettings().UsingMode(DeserializationMode.Ostrich));

    private readonly GatheredSet set;
    private readonly ViewRunner runner;

    /// <summary>Compiles a view.</summary>
    /// <param name="set">The gathered set.</param>
    /// <param name="view">The view.</param>
    /// <exception cref="RowException">Nothing is gathered.</exception>
    /// <exception cref="ViewException">The view cannot be run.</exception>
    public ViewRows(GatheredSet set, ViewDefinition view)
    {
        ArgumentNullException.ThrowIfNull(set);
        if (set.Sources().Count == 0)
        {
            throw new RowException(RowProblems.NothingGathered.At("", $"There is nothing in {set.Folder}."));
        }

        this.set = set;
        runner = new ViewRunner(view);
    }

    /// <summary>Name of the view.</summary>
    public string Name => runner.Name;

    /// <summary>Columns, the source first.</summary>
    public ImmutableArray<RowColumn> Columns => [new(SourceColumn, ColumnKind.Text, false, null), .. runner.Columns];

    /// <summary>All rows, in the order of the set; read as they are asked for.</summary>
    /// <param name="leftOut">Takes what is wrong with resources that do not fit the view, which then give no row; null makes the first one an error.</param>
    /// <exception cref="RowException">A line of the set cannot be read.</exception>
    /// <exception cref="ViewException">A resource does not fit the view, and <paramref name="leftOut"/> is null.</exception>
    public IEnumerable<object?[]> Read(ICollection<Problem>? leftOut = null)
    {
        foreach (var (rows, failure) in new GatheredLines(set).Distinct(runner.Resource).AsParallel().AsOrdered().Select(Rows).AsSequential())
        {
            if (failure is { SourceException: ViewException misfit } && leftOut is not null)
            {
                leftOut.Add(misfit.Problem);
                continue;
            }

            failure?.Throw();
            foreach (var row in rows)
            {
                yield return row;
            }
        }
    }

    // What fails on another thread is thrown where the rows are read, as what it is.
    private (IReadOnlyList<object?[]> Rows, ExceptionDispatchInfo? Failure) Rows(GatheredLine line)
    {
        try
        {
            var json = new Utf8JsonReader(line.Json.Span);
            var resource = Deserializer.DeserializeResource(ref json);
            return ([.. runner.Rows(resource).Select(row => (object?[])[line.Source, .. row])], null);
        }
        catch (Exception broken) when (broken is DeserializationFailedException or JsonException or FormatException)
        {
            return ([], ExceptionDispatchInfo.Capture(RowException.Unreadable(line, broken)));
        }
        catch (ViewException misfit)
        {
            var place = new SourcePlace($"{line.Source}/{line.File}", line.Number);
            return ([], ExceptionDispatchInfo.Capture(new ViewException(misfit.Problem with { Place = place }, misfit)));
        }
    }
}
