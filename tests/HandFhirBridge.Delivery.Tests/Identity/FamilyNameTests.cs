using HandFhirBridge.Delivery.Identity;

namespace HandFhirBridge.Delivery.Tests.Identity;

public sealed class FamilyNameTests
{
    // Equivalent sequences from Unicode's NormalizationTest.txt (UAX #15, columns 1 and 3 for NFC).
    [Theory]
    [InlineData("\u1E0A", "\u0044\u0307", true)]
    [InlineData("\u1E14", "\u0045\u0304\u0300", true)]
    [InlineData("\uAC00", "\u1100\u1161", true)]
    [InlineData("\u212B", "\u00C5", true)]
    [InlineData("M\u00FCller", "M\u00DCLLER", true)]
    [InlineData("de  la\tCruz", " DE LA CRUZ ", true)]
    [InlineData("\u0160uman", "Suman", false)]
    [InlineData("Mueller", "M\u00FCller", false)]
    [InlineData("Smith-Jones", "Smith Jones", false)]
    [InlineData("O'Hara", "O\u2019Hara", false)]
    [InlineData("", "", false)]
    [InlineData("Lind", null, false)]
    public void Agrees_TwoSpellings_OnlyNormalizationCaseAndSpaceAreForgiven(string one, string? other, bool expected) =>
        FamilyName.Agrees(one, other).ShouldBe(expected);
}
