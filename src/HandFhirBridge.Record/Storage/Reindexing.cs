using Dapper;
using HandFhirBridge.Record.Search;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Record.Storage;

/// <summary>Takes the search values of every resource that stands anew, into tables that are empty.</summary>
internal static class Reindexing
{
    public static void Run(SqliteConnection connection, SqliteTransaction transaction)
    {
        using var index = new IndexWriter(connection);
        // Numbers first: what is read from a table while another is written must not be kept open.
        foreach (var rid in connection.Query<long>("SELECT rid FROM resource WHERE deleted = 0", transaction: transaction).ToList())
        {
            var (type, id, json) = connection.QuerySingle<(string, string, string)>("SELECT type, id, json FROM resource WHERE rid = @rid", new { rid }, transaction);
            index.Replace(rid, IndexValues.Of(new StoredResource(type, id, 1, "", false, json).Resource()), stood: false);
        }
    }
}
