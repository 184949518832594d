using System.Diagnostics;
using System.Runtime.CompilerServices;
using System.Text.Json;

namespace HandFhirBridge.Delivery.Tests.Authorization;

/// <summary>tests/peers/check-assertion.mjs: npm jose as the judge of a client assertion.</summary>
internal static class PeerVerifier
{
    /// <summary>Skips the test where the peers are not installed.</summary>
    public static async Task<(bool Verified, string Said)> VerifyAsync(
        string assertion, IReadOnlyDictionary<string, object> keys, string algorithm, string client, Uri audience)
    {
        var folder = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(Here())!, "..", "..", "peers"));
        if (!Directory.Exists(Path.Combine(folder, "node_modules", "jose")))
        {
            Assert.Skip("tests/peers/node_modules is absent; run npm ci in tests/peers.");
        }

        using var process = Process.Start(new ProcessStartInfo("node", ["check-assertion.mjs"])
        {
            WorkingDirectory = folder, RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true,
        })!;
        await process.StandardInput.WriteAsync(JsonSerializer.Serialize(new { assertion, keys, algorithm, client, audience = audience.OriginalString }));
        process.StandardInput.Close();
        var said = await process.StandardOutput.ReadToEndAsync() + await process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        // 1 is a verdict, anything else a fault of the check itself.
        process.ExitCode.ShouldBeInRange(0, 1, said);
        return (process.ExitCode == 0, said);
    }

    private static string Here([CallerFilePath] string path = "") => path;
}
