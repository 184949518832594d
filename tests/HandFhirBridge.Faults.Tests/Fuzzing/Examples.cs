using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Faults.Tests.Fuzzing;

/// <summary>Documents to start from: the examples that are accepted, and the bad ones.</summary>
internal static class Examples
{
    public static IReadOnlyList<byte[]> Good { get; } = Read("sessions").ToList();

    public static IReadOnlyList<byte[]> Bad { get; } = Read("bad").Where(d => d.Length > 0).ToList();

    private static IEnumerable<byte[]> Read(string folder) =>
        Directory.GetFiles(Repository.Example(folder), "*.json", SearchOption.AllDirectories).Order(StringComparer.Ordinal).Select(File.ReadAllBytes);
}
