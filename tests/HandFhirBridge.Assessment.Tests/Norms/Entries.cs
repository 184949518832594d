using System.Text;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Tests.Norms;

/// <summary>Norm tables as two people type them; every number is invented.</summary>
internal static class Entries
{
    public const string Header = "task,hand,sex,age_min,age_max,n,mean,sd";
    public const string Line = "writing,dominant,female,20,59,30,12.5,3.1";

    public static Instrument Instrument => InstrumentLibrary.Embedded.All[0];

    public static NormRow Row { get; } = new("writing", HandRole.Dominant, SexForNorm.Female, 20, 59, 30, 12.5m, 3.1m);

    public static NormEntry By(string person) =>
        new("own", "seven-task", "Own table", "invented for the check", person, DateTimeOffset.UnixEpoch, [Row]);

    public static Outcome<NormEntry> Read(string table) => Read(Encoding.UTF8.GetBytes(table));

    public static Outcome<NormEntry> Read(byte[] table)
    {
        using var stream = new MemoryStream(table);
        return NormEntryReader.Read(stream, "own.csv", By("Anna"), Instrument);
    }
}
