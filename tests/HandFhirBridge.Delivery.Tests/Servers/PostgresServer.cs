using System.Diagnostics;
using System.Globalization;
using Npgsql;

namespace HandFhirBridge.Delivery.Tests.Servers;

/// <summary>
/// A PostgreSQL server of our own, as the distribution installs it: spoken to over a socket in a temporary folder, and gone with
/// this process, however that ends.
/// </summary>
public sealed class PostgresServer : IAsyncDisposable
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

    private readonly DirectoryInfo folder;
    private readonly Process shell;
    private int databases;

    private PostgresServer(DirectoryInfo folder, Process shell)
    {
        this.folder = folder;
        this.shell = shell;
    }

    /// <summary>Why it cannot run here; null if it can.</summary>
    public static string? Missing =>
        Programs is null ? "PostgreSQL is not installed under /usr/lib/postgresql (Debian: apt-get install postgresql)."
        : Environment.IsPrivilegedProcess && !File.ReadLines("/etc/passwd").Any(line => line.StartsWith(Superuser + ":", StringComparison.Ordinal))
            ? "PostgreSQL does not run as root, and there is no account named postgres to run it."
            : null;

    private static string? Programs => !Directory.Exists("/usr/lib/postgresql") ? null
        : Directory.GetDirectories("/usr/lib/postgresql").Select(version => Path.Combine(version, "bin"))
            .Where(bin => File.Exists(Path.Combine(bin, "initdb"))).Order(StringComparer.Ordinal).LastOrDefault();

    /// <summary>Starts one; only where nothing is <see cref="Missing"/>.</summary>
    public static async Task<PostgresServer> StartAsync(CancellationToken cancellation)
    {
        var folder = Directory.CreateTempSubdirectory("hfb-postgres-");
        var shell = Process.Start(Command(Programs!, folder.FullName))!;
        return await shell.StandardOutput.ReadLineAsync(cancellation) == "ready"
            ? new(folder, shell)
            : throw new InvalidOperationException("PostgreSQL did not start.");
    }

    /// <summary>Makes an empty database.</summary>
    /// <returns>Its connection string.</returns>
    public async Task<string> CreateDatabaseAsync(CancellationToken cancellation)
    {
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
        shell.StandardInput.Close();
        await shell.WaitForExitAsync();
        shell.Dispose();
        folder.Delete(recursive: true);
    }

    private string ConnectionString(string database) => $"Host={folder.FullName};Username={Superuser};Database={database}";

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
}
