using System.Collections.Immutable;
using DuckDB.NET.Data;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Outcomes.Gather;
using HandFhirBridge.Outcomes.Views;
using HandFhirBridge.Outcomes.Views.Definitions;

namespace HandFhirBridge.Outcomes.Rows;

/// <summary>
/// Rows of views as Parquet, which any engine reads: a folder a view, in it folders <c>site=…/month=…</c> (Hive layout) where the view has a
/// site and a day, else <c>source=…</c>. The whole set is written aside and put in place at once.
/// </summary>
/// <param name="folder">The set's folder.</param>
public sealed class RowSet(string folder)
{
    private const string StateFile = "_gathered.txt";
    private const string LeftOutFile = "_left-out.txt";

    /// <summary>The set's folder.</summary>
    public string Folder => folder;

    /// <summary>Writes the rows of the gathered set, unless those that lie there are of the same state of it.</summary>
    /// <param name="set">The gathered set.</param>
    /// <param name="views">Views; each is a table.</param>
    /// <returns>Rows written a view; empty if nothing had changed.</returns>
    /// <exception cref="RowException">Nothing is gathered, a line cannot be read, or another process makes the rows.</exception>
    public ImmutableSortedDictionary<string, long> Refresh(GatheredSet set, IReadOnlyList<ViewDefinition> views)
    {
        ArgumentNullException.ThrowIfNull(set);
        ArgumentNullException.ThrowIfNull(views);
        var state = $"{typeof(RowSet).Assembly.ManifestModule.ModuleVersionId}\n{set.Fingerprint()}";
        return IsOf(state) ? ImmutableSortedDictionary<string, long>.Empty : Write(set, views, state);
    }

    /// <summary>What is wrong with resources that gave no row, a sentence each: one resource that does not fit stops no other, and none is passed over in silence.</summary>
    public IReadOnlyList<string> LeftOut() => Path.Combine(folder, LeftOutFile) is var path && File.Exists(path) ? File.ReadAllLines(path) : [];

    private ImmutableSortedDictionary<string, long> Write(GatheredSet set, IReadOnlyList<ViewDefinition> views, string state)
    {
        var tables = views.Select(view => new ViewRows(set, view)).ToList();
        using var alone = TakeLock();
        var (aside, old) = (folder + ".new", folder + ".old");
        Remove(aside);
        Directory.CreateDirectory(aside);
        var leftOut = new List<Problem>();
        var counts = ImmutableSortedDictionary.CreateBuilder<string, long>(StringComparer.Ordinal);
        foreach (var table in tables)
        {
            counts[table.Name] = ParquetRows.Write(table, Path.Combine(aside, table.Name), leftOut);
        }

        WriteCounted(aside, views);
        File.WriteAllLines(Path.Combine(aside, LeftOutFile), leftOut.Select(problem => problem.ToString()));
        File.WriteAllText(Path.Combine(aside, StateFile), state);
        Remove(old);
        if (Directory.Exists(folder))
        {
            Directory.Move(folder, old);
        }

        Directory.Move(aside, folder);
        Remove(old);
        return counts.ToImmutable();
    }

    /// <summary>Opens the set for questions: each view is a table of its name. The connection reads and writes nothing outside the set's folder.</summary>
    /// <param name="views">The views the set was written of.</param>
    public DuckDBConnection Open(IReadOnlyList<ViewDefinition> views)
    {
        ArgumentNullException.ThrowIfNull(views);
        var connection = OpenTables(folder, views);
        if (CountedTrials.AreOf(views))
        {
            CountedTrials.Open(connection, folder);
        }

        RowTable.Execute(connection, $"SET allowed_directories = [{SqlTypes.Text(Path.GetFullPath(folder))}]");
        RowTable.Execute(connection, "SET enable_external_access = false");
        RowTable.Execute(connection, "SET lock_configuration = true");
        return connection;
    }

    private static DuckDBConnection OpenTables(string folder, IReadOnlyList<ViewDefinition> views)
    {
        var connection = new DuckDBConnection("DataSource=:memory:");
        connection.Open();
        foreach (var view in views)
        {
            var files = Path.Combine(folder, view.Name);
            if (Directory.Exists(files) && Directory.EnumerateFiles(files, "*.parquet", SearchOption.AllDirectories).Any())
            {
                RowTable.Execute(connection, $"CREATE VIEW {SqlTypes.Name(view.Name)} AS {ParquetRows.Select(files)}");
            }
            else
            {
                RowTable.Create(connection, view.Name, ParquetRows.Columns(view));
            }
        }

        return connection;
    }

    /// <summary>Writes what summaries are counted from beside the rows that lie in a folder.</summary>
    internal static void WriteCounted(string folder, IReadOnlyList<ViewDefinition> views)
    {
        if (CountedTrials.AreOf(views))
        {
            using var rows = OpenTables(folder, views);
            ParquetRows.Limit(rows, Path.Combine(folder, CountedTrials.Table));
            CountedTrials.Write(rows, folder);
        }
    }

    private FileStream TakeLock()
    {
        Directory.CreateDirectory(Path.GetDirectoryName(Path.GetFullPath(folder))!);
        try
        {
            return new FileStream(folder + ".lock", FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
        }
        catch (IOException taken)
        {
            throw new RowException(RowProblems.AtWork.At("", $"Another process is making the rows in {folder}."), taken);
        }
    }

    private bool IsOf(string state) => Path.Combine(folder, StateFile) is var path && File.Exists(path) && File.ReadAllText(path) == state;

    private static void Remove(string directory)
    {
        if (Directory.Exists(directory))
        {
            Directory.Delete(directory, recursive: true);
        }
    }
}
