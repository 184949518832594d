using System.Data.Common;
using Dapper;

namespace HandFhirBridge.Delivery.Ledger.Sql;

/// <summary>Statements within one connection and, for writes, one transaction.</summary>
internal sealed class SqlScope(DbConnection connection, DbTransaction? transaction, SqlDialect dialect, CancellationToken cancellation)
{
    public SqlDialect Dialect => dialect;

    public Task<int> ExecuteAsync(string sql, object? values = null) => connection.ExecuteAsync(Command(sql, values));

    public Task<T?> ScalarAsync<T>(string sql, object? values = null) => connection.ExecuteScalarAsync<T>(Command(sql, values));

    public Task<T?> FirstAsync<T>(string sql, object? values = null) => connection.QuerySingleOrDefaultAsync<T>(Command(sql, values));

    public async Task<List<T>> ListAsync<T>(string sql, object? values = null) => (await connection.QueryAsync<T>(Command(sql, values))).AsList();

    private CommandDefinition Command(string sql, object? values) => new(sql, values, transaction, cancellationToken: cancellation);
}
