using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Service.Intake;

namespace HandFhirBridge.Service.Tests.Intake;

/// <summary>Reads as the service does, on the first of November 2026, noon UTC.</summary>
internal static class Sources
{
    public static string Examples { get; } = Path.Combine(Root(), "examples");

    public static SessionSources Reader { get; } = new(new SessionReader(InstrumentLibrary.Embedded, new FixedClock()));

    public static async Task<List<IntakeItem>> ReadAsync(params string[] paths) =>
        await Reader.ReadAsync(paths, Stream.Null, TestContext.Current.CancellationToken).ToListAsync(TestContext.Current.CancellationToken);

    /// <summary>Reads bytes as if they came on standard input.</summary>
    public static async Task<List<IntakeItem>> ReadStandardInputAsync(byte[] bytes) =>
        await Reader.ReadAsync(["-"], new MemoryStream(bytes), TestContext.Current.CancellationToken).ToListAsync(TestContext.Current.CancellationToken);

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "HandFhirBridge.sln")))
        {
            folder = folder.Parent ?? throw new DirectoryNotFoundException("HandFhirBridge.sln is in no folder above the tests.");
        }

        return folder.FullName;
    }

    private sealed class FixedClock : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => new(2026, 11, 1, 12, 0, 0, TimeSpan.Zero);
    }
}
