using System.Diagnostics;
using System.Globalization;
using Npgsql;

[assembly: AssemblyFixture(typeof(HandFhirBridge.Delivery.Tests.Servers.PostgresCluster))]

namespace HandFhirBridge.Delivery.Tests.Servers;

/// <summary>
/// A PostgreSQL server of the tests' own, as the distribution installs it: made when the first test asks, spoken to over a
/// socket in a temporary folder, and gone with the test process, however that ends. Without the programs tests are skipped.
/// </summary>
public sealed class PostgresCluster : IAsyncDisposable
{
    private const string Superuser = "postgres";

    /// <summary>The server lives as long as this shell, and the shell as long as its input stays open.</summary>
    private const string Script =
        """
        "$1/initdb" -D "$2/data" -U postgres -A trust -E UTF8 --locale=C --no-sync >"$2/initdb.log" 2>&1 || { cat "$2/initdb.log" >&2; exit 1; }
        "$1/postgres" -D "$2/data" -k "$2" -c listen_addresses= -c max_connections=200 >"$2/server.log" 2>&1 &
        server=$!
        until "$1/pg_isready" -q -h "$2" -U postgres; do kill -0 $server || { cat "$2/server.log" >&2; exit 1; }; done
        echo ready
        cat >/dev/null
        kill -QUIT $server
        wait $server
        """;

    private readonly SemaphoreSlim starting = new(1, 1);
    private DirectoryInfo? folder;
    private Process? shell;
    private int databases;

    /// <summary>Makes an empty database; skips the test where there is no PostgreSQL to be run.</summary>
    /// <returns>Its connection string.</returns>
    public async Task<string> CreateDatabaseAsync(CancellationToken cancellation)
    {
        await StartAsync(cancellation);
        var name = string.Create(CultureInfo.InvariantCulture, $"ledger{Interlocked.Increment(ref databases)}");
        await ExecuteAsync($"CREATE DATABASE {name}", cancellation);
        return ConnectionString(name);
    }

    /// <summary>Runs a statement as the server's owner.</summary>
    public async Task ExecuteAsync(string sql, CancellationToken cancellation, string database = Superuser)
    {
        await using var connection = new NpgsqlConnection(ConnectionString(database) + ";Pooling=false");
        await connection.OpenAsync(cancellation);
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync(cancellation);
    }

    public async ValueTask DisposeAsync()
    {
        starting.Dispose();
        if (shell is not null)
        {
            shell.StandardInput.Close();
            await shell.WaitForExitAsync();
            shell.Dispose();
        }

        folder?.Delete(recursive: true);
    }

    private string ConnectionString(string database) => $"Host={folder!.FullName};Username={Superuser};Database={database}";

    private async Task StartAsync(CancellationToken cancellation)
    {
        await starting.WaitAsync(cancellation);
        try
        {
            if (shell is null)
            {
                var programs = Programs();
                folder = Directory.CreateTempSubdirectory("hfb-postgres-");
                shell = Process.Start(Command(programs, folder.FullName))!;
                (await shell.StandardOutput.ReadLineAsync(cancellation)).ShouldBe("ready");
            }
        }
        finally
        {
            starting.Release();
        }
    }

    /// <summary>PostgreSQL refuses to run as root; its package brings the account it runs under instead.</summary>
    private static ProcessStartInfo Command(string programs, string folder)
    {
        string[] command = ["sh", "-c", Script, "sh", programs, folder];
        if (Environment.IsPrivilegedProcess)
        {
            Process.Start("chown", [Superuser, folder])!.WaitForExit();
            command = ["runuser", "-u", Superuser, "--", .. command];
        }

        return new(command[0], command[1..]) { RedirectStandardInput = true, RedirectStandardOutput = true, WorkingDirectory = folder };
    }

    private static string Programs()
    {
        var installed = Directory.Exists("/usr/lib/postgresql")
            ? Directory.GetDirectories("/usr/lib/postgresql").Select(version => Path.Combine(version, "bin")).Where(bin => File.Exists(Path.Combine(bin, "initdb"))).Order(StringComparer.Ordinal).LastOrDefault()
            : null;
        if (installed is null)
        {
            Assert.Skip("PostgreSQL is not installed under /usr/lib/postgresql (Debian: apt-get install postgresql).");
        }

        if (Environment.IsPrivilegedProcess && !File.ReadLines("/etc/passwd").Any(line => line.StartsWith(Superuser + ":", StringComparison.Ordinal)))
        {
            Assert.Skip("PostgreSQL does not run as root, and there is no account named postgres to run it.");
        }

        return installed;
    }
}
