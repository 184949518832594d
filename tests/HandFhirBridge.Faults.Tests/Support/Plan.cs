using System.Globalization;

namespace HandFhirBridge.Faults.Tests.Support;

/// <summary>Size and seed of a run, from the environment; the seed is printed, so that a run can be repeated.</summary>
internal static class Plan
{
    public static int Seed { get; } = Number("FAULTS_SEED") ?? Random.Shared.Next();

    public static int? Number(string name) =>
        Environment.GetEnvironmentVariable(name) is { Length: > 0 } text ? int.Parse(text, CultureInfo.InvariantCulture) : null;

    public static void Say(string line)
    {
        TestContext.Current.TestOutputHelper?.WriteLine(line);
        Console.WriteLine(line);
    }
}
