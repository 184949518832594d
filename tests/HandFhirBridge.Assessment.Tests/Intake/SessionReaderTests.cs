using System.Text;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Tests.Intake;

public sealed class SessionReaderTests
{
    private static readonly SessionReader Reader = new(InstrumentLibrary.Embedded, new FixedClock());

    public static TheoryData<string, string, string> Faults => FaultTable.Rows;

    public static TheoryData<string, string, string> Remarks => FaultTable.Remarks;

    public static TheoryData<string> SessionFiles => [.. Examples.Sessions().Select(f => Path.GetRelativePath(Examples.Folder, f))];

    [Fact]
    public void Read_CleanSession_HasNothingToRemark() =>
        Reader.Read(File.ReadAllBytes(Examples.Clean)).Problems.ShouldBeEmpty();

    [Theory, MemberData(nameof(SessionFiles))]
    public void Read_ExampleSession_Succeeds(string file)
    {
        var outcome = Reader.Read(File.ReadAllBytes(Path.Combine(Examples.Folder, file)));

        outcome.Problems.Where(p => p.Severity == Severity.Error).ShouldBeEmpty();
        outcome.Value.ShouldNotBeNull();
    }

    [Theory, MemberData(nameof(Faults))]
    public void Read_OneFault_ReportsItAloneAtItsPath(string code, string path, string edits)
    {
        var outcome = Reader.Read(DocumentEdit.Apply(edits));

        outcome.Problems.Select(p => $"{p.Code} {p.Location}").ShouldBe([$"{code} {path}"], string.Join('\n', outcome.Problems));
        outcome.Value.ShouldBeNull();
        outcome.Problems[0].Message.ShouldNotBeEmpty();
        outcome.Problems[0].Remedy.ShouldNotBeEmpty();
    }

    [Theory, MemberData(nameof(Remarks))]
    public void Read_Doubtful_AcceptsAndPointsItOut(string code, string path, string edits)
    {
        var outcome = Reader.Read(DocumentEdit.Apply(edits));

        outcome.Problems.Select(p => $"{p.Code} {p.Location}").ShouldBe([$"{code} {path}"], string.Join('\n', outcome.Problems));
        outcome.Value.ShouldNotBeNull();
        outcome.Problems[0].Severity.ShouldNotBe(Severity.Error);
    }

    [Fact]
    public void Read_SeveralFaults_ReportsAllInOrderOfTheDocument()
    {
        var outcome = Reader.Read(DocumentEdit.Apply(
            "trials[5].seconds = 0 ; - patient.birthDate ; sessionId = \"a b\" ; trials[0].hand = \"lef\" ; sexForNorm = \"f\" ; setup.glasses = 3"));

        outcome.Problems.Select(p => p.Location).ShouldBe(
            ["$.sessionId", "$.patient.birthDate", "$.sexForNorm", "$.setup.glasses", "$.trials[0].hand", "$.trials[5].seconds"]);
    }

    [Theory]
    // RFC 8259: what is not JSON. Lines and columns count from 1, columns in characters.
    [InlineData("", "HFB1003", "The document is empty.")]
    [InlineData(" \n ", "HFB1003", "The document is empty.")]
    [InlineData("{\n  \"site\": \"ä\", x", "HFB1005", "The text is not JSON at line 2, column 16:")]
    [InlineData("{\"site\": \"x\",}", "HFB1005", "The text is not JSON at line 1, column 14:")]
    [InlineData("{\"seconds\": 01}", "HFB1005", "The text is not JSON at line 1, column 14:")]
    [InlineData("{} {}", "HFB1005", "The text is not JSON at line 1, column 4:")]
    [InlineData("{\"site\": \"\\ud800\"}", "HFB1005", "The text is not JSON at line 1, column 10:")]
    [InlineData("// note\n{}", "HFB1005", "The text is not JSON at line 1, column 1:")]
    [InlineData("{\"site\": \"x", "HFB1004", "The document ends too early, at line 1, column 12.")]
    [InlineData("{\"site\": [\n1,", "HFB1004", "The document ends too early, at line 2, column 3.")]
    public void Read_NotJson_NamesLineAndColumn(string text, string code, string message)
    {
        var problem = Reader.Read(Encoding.UTF8.GetBytes(text)).Problems.ShouldHaveSingleItem();

        problem.Code.ShouldBe(code);
        problem.Message.ShouldStartWith(message);
    }

    [Fact]
    public void Read_NotUtf8_NamesTheByte()
    {
        var problem = Reader.Read("{\"site\": \"caf\xE9\"}"u8.ToArray().Select((b, i) => i == 13 ? (byte)0xE9 : b).ToArray()).Problems.ShouldHaveSingleItem();

        problem.Code.ShouldBe("HFB1002");
        problem.Message.ShouldBe("The text is not UTF-8 at line 1, column 14.");
        problem.Found.ShouldBe("byte 0xE9");
    }

    [Fact]
    public void Read_AboveOneMebibyte_IsRefusedAndExactlyOneMebibyteIsRead()
    {
        var largest = new byte[SessionReader.MaxDocumentBytes];
        largest.AsSpan().Fill((byte)' ');
        File.ReadAllBytes(Examples.Clean).CopyTo(largest, 0);

        Reader.Read(largest).Succeeded.ShouldBeTrue();
        Reader.Read((byte[])[.. largest, (byte)' ']).Problems.ShouldHaveSingleItem().Code.ShouldBe("HFB1001");
    }

    [Fact]
    public void Read_ByteOrderMark_IsIgnored() =>
        Reader.Read((byte[])[0xEF, 0xBB, 0xBF, .. File.ReadAllBytes(Examples.Clean)]).Succeeded.ShouldBeTrue(); // RFC 8259 section 8.1

    [Fact]
    public void Read_PropertyGivenTwice_NamesItsPath()
    {
        var text = File.ReadAllText(Examples.Clean).Replace("\"sexForNorm\": \"female\"", "\"sexForNorm\": \"female\", \"sexForNorm\": \"male\"", StringComparison.Ordinal);

        var problem = Reader.Read(Encoding.UTF8.GetBytes(text)).Problems.ShouldHaveSingleItem();
        (problem.Code, problem.Location, problem.Found).ShouldBe(("HFB1006", "$.sexForNorm", "\"male\""));
    }

    [Theory]
    [InlineData("revision = null ; comment = null ; trials[0].departures = [] ; trials[0].counted = null ; setup.kit = null")]
    [InlineData("dominance.testedAsDominant = \"right\" ; startedAt = \"2026-06-16T07:00:00Z\"")]
    [InlineData("startedAt = \"2026-06-16T09:00:00.1234567+02:00\"")]
    public void Read_AllowedVariants_Succeed(string edits) =>
        Reader.Read(DocumentEdit.Apply(edits)).Problems.ShouldBeEmpty();

    [Theory]
    // The examples of RFC 3339 section 5.8. The last is a leap second, which no clock of ours can name.
    [InlineData("1985-04-12T23:20:50.52Z", null)]
    [InlineData("1996-12-19T16:39:57-08:00", null)]
    [InlineData("1937-01-01T12:00:27.87+00:20", null)]
    [InlineData("1990-12-31T23:59:60Z", "HFB1203")]
    [InlineData("1990-12-31T15:59:60-08:00", "HFB1203")]
    public void Read_TimeOfTheStandard_IsUnderstood(string instant, string? code)
    {
        var outcome = Reader.Read(DocumentEdit.Apply($"startedAt = \"{instant}\""));

        outcome.Problems.FirstOrDefault(p => p.Location == "$.startedAt")?.Code.ShouldBe(code);
        outcome.Problems.Any(p => p.Location == "$.startedAt").ShouldBe(code is not null);
    }

    [Fact]
    public void Read_OutcomeTheTaskCannotHave_NamesThosePossible()
    {
        var known = InstrumentLibrary.Embedded.All[0];
        var strict = known with { Tasks = [.. known.Tasks.Select(t => t with { Outcomes = [TrialOutcome.Completed, TrialOutcome.Unable] })] };
        var document = DocumentEdit.Apply("trials[3].outcome = \"declined\" ; - trials[3].seconds ; - trials[3].source");

        var problem = new SessionReader(new InstrumentLibrary([strict]), new FixedClock()).Read(document).Problems.ShouldHaveSingleItem();

        (problem.Code, problem.Location).ShouldBe(("HFB1303", "$.trials[3].outcome"));
        problem.Message.ShouldBe("trials[3].outcome is \"declined\"; allowed are completed, unable.");
    }

    [Fact]
    public void Read_TrialThatBeganWithTheSession_StoresNoStart()
    {
        var outcome = Reader.Read(DocumentEdit.Apply("startedAt = \"2026-06-16T09:00:00+02:00\" ; trials[0].startedAt = \"2026-06-16T09:00:00+02:00\""));

        outcome.Value!.Trials[0].StartedAt.ShouldBeNull();
        outcome.Value.Trials[1].StartedAt.ShouldNotBeNull();
    }
}
