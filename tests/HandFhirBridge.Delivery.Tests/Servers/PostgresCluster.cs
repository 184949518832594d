[assembly: AssemblyFixture(typeof(HandFhirBridge.Delivery.Tests.Servers.PostgresCluster))]

namespace HandFhirBridge.Delivery.Tests.Servers;

/// <summary>The one PostgreSQL server of the tests, made when the first test asks. Where it cannot run, tests are skipped.</summary>
public sealed class PostgresCluster : IAsyncDisposable
{
    private readonly SemaphoreSlim starting = new(1, 1);
    private PostgresServer? server;

    /// <summary>Makes an empty database; skips the test where there is no PostgreSQL to be run.</summary>
    /// <returns>Its connection string.</returns>
    public async Task<string> CreateDatabaseAsync(CancellationToken cancellation) =>
        await (await ServerAsync(cancellation)).CreateDatabaseAsync(cancellation);

    /// <summary>Runs a statement as the server's owner.</summary>
    public async Task ExecuteAsync(string sql, CancellationToken cancellation, string database = "postgres") =>
        await (await ServerAsync(cancellation)).ExecuteAsync(sql, cancellation, database);

    public async ValueTask DisposeAsync()
    {
        starting.Dispose();
        if (server is not null)
        {
            await server.DisposeAsync();
        }
    }

    private async Task<PostgresServer> ServerAsync(CancellationToken cancellation)
    {
        Assert.SkipWhen(PostgresServer.Missing is not null, PostgresServer.Missing ?? "");
        await starting.WaitAsync(cancellation);
        try
        {
            return server ??= await PostgresServer.StartAsync(cancellation);
        }
        finally
        {
            starting.Release();
        }
    }
}
