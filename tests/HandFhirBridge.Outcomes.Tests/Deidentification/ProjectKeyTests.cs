using HandFhirBridge.Outcomes.Deidentification;

namespace HandFhirBridge.Outcomes.Tests.Deidentification;

/// <summary>Keys and pseudonyms.</summary>
public sealed class ProjectKeyTests
{
    /// <summary>Computed by OpenSSL 3: <c>printf '7:Patient5:north2:p1' | openssl dgst -sha256 -mac HMAC -macopt hexkey:0001…1f</c>, first 32 digits.</summary>
    [Fact]
    public void Pseudonym_KnownKey_IsThatOfOpenSsl()
    {
        using var keys = new Keys();
        keys.Holding(Keys.Counting).Pseudonym("Patient", "north", "p1").ShouldBe("2e6b4ed17e945d0e78e8d575571f4eb3");
    }

    [Fact]
    public void Pseudonym_NamesCutElsewhere_AreOthers()
    {
        var key = ProjectKey.ForOnce();
        new[] { key.Pseudonym("a", "bc", "d"), key.Pseudonym("a", "b", "cd"), key.Pseudonym("ab", "c", "d"), key.Pseudonym("a", "bcd") }.ShouldBeUnique();
    }

    [Fact]
    public void Pseudonym_AnotherKey_IsAnother() => ProjectKey.ForOnce().Pseudonym("Patient", "p1").ShouldNotBe(ProjectKey.ForOnce().Pseudonym("Patient", "p1"));

    [Fact]
    public void DaysBack_ManyPatients_LiesWithinAYearAndDiffers()
    {
        var key = ProjectKey.ForOnce();
        var days = Enumerable.Range(0, 5000).Select(i => key.DaysBack("north", $"{i}")).ToList();
        days.ShouldAllBe(d => d >= 1 && d <= 365);
        days.Distinct().Count().ShouldBeGreaterThan(300);
    }

    [Fact]
    public void Create_NewFile_CanBeReadByItsOwnerAlone()
    {
        using var keys = new Keys();
        ProjectKey.Create(keys.Path);
        ProjectKey.Read(keys.Path).Pseudonym("a").Length.ShouldBe(32);
        if (!OperatingSystem.IsWindows())
        {
            File.GetUnixFileMode(keys.Path).ShouldBe(UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }

        Should.Throw<IOException>(() => ProjectKey.Create(keys.Path)); // a key is never written over
    }

    [Fact]
    public void Read_NoFile_SaysSo()
    {
        using var keys = new Keys();
        Should.Throw<DeidentificationException>(() => ProjectKey.Read(keys.Path)).Problem.Kind.ShouldBe(DeidentificationProblems.KeyNotReadable);
    }

    [Theory]
    [InlineData("")]
    [InlineData("0001020304")]
    [InlineData("a secret that is long enough but is not made of hexadecimal digits at all")]
    public void Read_NoKeyInIt_SaysSoWithoutShowingIt(string text)
    {
        using var keys = new Keys();
        var problem = Should.Throw<DeidentificationException>(() => keys.Holding(text)).Problem;
        problem.Kind.ShouldBe(DeidentificationProblems.KeyUnusable);
        (text.Length == 0 || !problem.ToString().Contains(text, StringComparison.Ordinal)).ShouldBeTrue();
    }
}
