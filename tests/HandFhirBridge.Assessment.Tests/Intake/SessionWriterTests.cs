using System.Globalization;
using System.Text;
using FsCheck.Xunit;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Tests.Intake;

public sealed class SessionWriterTests
{
    private static readonly SessionReader Reader = new(InstrumentLibrary.Embedded, new FixedClock());

    public static TheoryData<string> SessionFiles => SessionReaderTests.SessionFiles;

    [Theory, MemberData(nameof(SessionFiles))]
    public void Write_ExampleSession_ReadsBackTheSame(string file)
    {
        var session = Reader.Read(File.ReadAllBytes(Path.Combine(Examples.Folder, file))).Value!;

        var written = SessionWriter.Write(session);
        var again = Reader.Read(written).Value!;

        SessionWriter.Write(again).ShouldBe(written);
        again.ShouldBeEquivalentTo(session);
    }

    [Property(Arbitrary = [typeof(SessionArbitrary)], MaxTest = 300)]
    public void Write_AnySession_ReadsBackTheSame(Session session)
    {
        var outcome = Reader.Read(SessionWriter.Write(session));

        outcome.Value.ShouldNotBeNull(string.Join('\n', outcome.Problems));
        outcome.Value.ShouldBeEquivalentTo(session);
        // Record equality of decimals ignores trailing zeros; digits must be the same too.
        outcome.Value.Trials.Select(t => t.Seconds?.ToString(CultureInfo.InvariantCulture)).ShouldBe(session.Trials.Select(t => t.Seconds?.ToString(CultureInfo.InvariantCulture)));
    }

    [Theory]
    [InlineData("4.20")]
    [InlineData("4.2")]
    [InlineData("4")]
    [InlineData("4.00")]
    [InlineData("0.01")]
    [InlineData("119.99")]
    public void Write_Seconds_KeepsTheirDigits(string seconds)
    {
        var session = Reader.Read(DocumentEdit.Apply($"trials[3].seconds = {seconds}")).Value!;

        Encoding.UTF8.GetString(SessionWriter.Write(session)).ShouldContain($"\"card-turning\",\"hand\":\"right\",\"outcome\":\"completed\",\"seconds\":{seconds},");
    }

    [Fact]
    public void ContentHash_OtherLayoutSameContent_IsEqual()
    {
        var one = Reader.Read(File.ReadAllBytes(Examples.Clean)).Value!;
        var other = Reader.Read(DocumentEdit.Apply("revision = 1 ; trials[0].departures = [] ; dominance.testedAsDominant = \"right\"")).Value!;

        SessionWriter.ContentHash(other).ShouldBe(SessionWriter.ContentHash(one));
    }

    [Theory]
    [InlineData("trials[3].seconds = 4.7")]
    [InlineData("trials[3].seconds = 4.750 ; trials[3].seconds = 4.76")]
    [InlineData("comment = \"Back at work.\"")]
    [InlineData("startedAt = \"2026-06-16T07:00:00Z\"")]
    public void ContentHash_OtherContent_Differs(string edits)
    {
        var one = Reader.Read(File.ReadAllBytes(Examples.Clean)).Value!;
        var other = Reader.Read(DocumentEdit.Apply(edits)).Value!;

        SessionWriter.ContentHash(other).ShouldNotBe(SessionWriter.ContentHash(one));
    }
}
