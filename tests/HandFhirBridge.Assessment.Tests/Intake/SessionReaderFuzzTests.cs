using System.Text;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Assessment.Tests.Intake;

/// <summary>Whatever bytes come: an answer, never an exception, never half a session.</summary>
public sealed class SessionReaderFuzzTests
{
    private static readonly SessionReader Reader = new(InstrumentLibrary.Embedded, new FixedClock());
    private static readonly byte[][] Good = [.. Examples.Sessions().Select(File.ReadAllBytes)];

    // Pieces that have a meaning in JSON or a history of breaking readers.
    private static readonly string[] Pieces =
    [
        "null", "true", "{}", "[]", "\"\"", "0", "-0", "1e999", "1E400", "-1", "0.0000000000000000000000000000001", "99999999999999999999999999999999",
        "\"\\ud800\"", "\"\\u0000\"", "\"2026-02-30\"", "\"0001-01-01T00:00:00+14:00\"", "\"9999-12-31T23:59:59-14:00\"", "\"0001-01-01\"", "\"9999-12-31\"",
        "\"left\"", "\"writing\"", ",", ":", "{", "}", "[", "]", "\"", "\\", "\uFEFF", "\u0000", "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[",
    ];

    [Property(MaxTest = 2000)]
    public void Read_AnyBytes_Answers(byte[] bytes) => Check(bytes);

    [Property(MaxTest = 1000)]
    public void Read_AnyText_Answers(string? text) => Check(Encoding.UTF8.GetBytes(text ?? ""));

    [Property(Arbitrary = [typeof(SessionReaderFuzzTests)], MaxTest = 4000)]
    public void Read_MutatedExample_Answers(Mutant mutant) => Check(mutant.Bytes);

    public static Arbitrary<Mutant> Mutants() => Arb.From(
        from document in Gen.Elements(Good)
        from times in Gen.Choose(1, 3)
        from edits in Gen.Choose(0, int.MaxValue).ArrayOf(3).ArrayOf(times)
        select new Mutant(edits.Aggregate(document, (bytes, edit) => Edit(bytes, edit[0] % 4, edit[1] % document.Length, edit[2]))));

    private static byte[] Edit(byte[] bytes, int kind, int at, int chance)
    {
        at = Math.Min(at, bytes.Length - 1);
        var piece = Encoding.UTF8.GetBytes(Pieces[chance % Pieces.Length]);
        return kind switch
        {
            0 => [.. bytes[..at], (byte)chance, .. bytes[(at + 1)..]],
            1 => [.. bytes[..at], .. piece, .. bytes[at..]],
            2 => Replaced(bytes, at, piece),
            _ => [.. bytes[..at], .. bytes[Math.Min(bytes.Length, at + 1 + (chance % 40))..]],
        };
    }

    // Replaces a whole value, so that the document stays JSON and the rules are reached.
    private static byte[] Replaced(byte[] bytes, int at, byte[] piece)
    {
        var colon = Array.IndexOf(bytes, (byte)':', at);
        var end = colon < 0 ? -1 : bytes.AsSpan(colon).IndexOfAny(",}]\n"u8);
        return end < 0 ? bytes : [.. bytes[..(colon + 1)], .. piece, .. bytes[(colon + end)..]];
    }

    private static void Check(byte[] bytes)
    {
        var outcome = Reader.Read(bytes);

        outcome.Succeeded.ShouldBe(!outcome.Problems.Any(p => p.Severity == Severity.Error));
        outcome.Problems.ShouldAllBe(p => p.Message.Length > 0 && p.Remedy.Length > 0 && p.Message.Length < 2000);
        if (outcome.Value is { } session)
        {
            Reader.Read(SessionWriter.Write(session)).Value.ShouldBeEquivalentTo(session);
        }
    }

    /// <summary>An example with some bytes changed.</summary>
    public sealed record Mutant(byte[] Bytes)
    {
        public override string ToString() => Encoding.UTF8.GetString(Bytes);
    }
}
