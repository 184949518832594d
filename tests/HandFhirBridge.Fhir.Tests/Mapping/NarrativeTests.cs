using System.Xml.Linq;
using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Mapping;

public sealed class NarrativeTests
{
    private const string Xhtml = "http://www.w3.org/1999/xhtml";

    // R4 narrative.html, constraints txt-1 and txt-2, and what we use of the elements it allows.
    private static readonly string[] Allowed = ["div", "h3", "p", "b", "table", "caption", "thead", "tbody", "tr", "th", "td"];

    // R4 domainresource.html, constraint dom-6: a resource should have narrative. narrative.html: well-formed XHTML, status generated.
    [Theory]
    [MemberData(nameof(SessionMapperTests.ExampleFiles), MemberType = typeof(SessionMapperTests))]
    public void Map_EachResource_HasANarrativeOfAllowedElements(string example)
    {
        foreach (var resource in Mapped.Map(Mapped.Example(example)).Entry.Select(e => (DomainResource)e.Resource!))
        {
            resource.Text!.Status.ShouldBe(Narrative.NarrativeStatus.Generated);
            var div = XElement.Parse(resource.Text.Div!);
            div.Value.ShouldNotBeNullOrWhiteSpace();
            div.DescendantsAndSelf().ShouldAllBe(e => e.Name.NamespaceName == Xhtml && Allowed.Contains(e.Name.LocalName));
            div.DescendantsAndSelf().Attributes().ShouldAllBe(a => a.IsNamespaceDeclaration);
        }
    }

    // R4 narrative.html: no script and no active content; what a therapist writes stays text. U+FFFF is text in JSON and no character of XML 1.0.
    [Theory]
    [InlineData("<script>alert(1)</script>", "<script>alert(1)</script>")]
    [InlineData("2 < 3 & \"so\" 'on' ]]>", "2 < 3 & \"so\" 'on' ]]>")]
    [InlineData("a\uFFFFb", "a\uFFFDb")]
    [InlineData("Geübt 😀", "Geübt 😀")]
    public void Map_FreeText_StaysText(string written, string shown)
    {
        var bundle = Mapped.Map(Samples.Clean.With("writing", Hand.Left, t => t with { Note = written }) with { Comment = written });
        foreach (var text in new[] { bundle.Trial("writing", Hand.Left).Text, bundle.Only<DiagnosticReport>().Text, bundle.Only<QuestionnaireResponse>().Text })
        {
            var div = XElement.Parse(text!.Div!);
            div.Value.ShouldContain(shown);
            div.Descendants().ShouldAllBe(e => e.Name.LocalName != "script");
        }
    }

    [Fact]
    public void Map_Report_ListsEveryTrialWithItsHandSpelledOutAndItsNorm()
    {
        var table = Tables(Mapped.Map(Samples.Clean))["Trials"];
        var rows = table.Element(XName.Get("tbody", Xhtml))!.Elements().Select(r => r.Elements().Select(c => c.Value).ToArray()).ToList();
        rows.Count.ShouldBe(14);
        rows[0].Take(3).ShouldBe(["Writing", "Left hand (non-dominant)", "31.60 s"]);
        rows[1].Take(3).ShouldBe(["Writing", "Right hand (dominant)", "12.86 s"]);
        rows.ShouldAllBe(r => r[3] == "none" || (r[3].Contains("evidence: ") && r[3].Contains("DEMONSTRATION")));
        rows.Where(r => r[3] == "none").ShouldAllBe(r => r[6].StartsWith("not judged", StringComparison.Ordinal));
    }

    [Fact]
    public void Map_Report_SaysWhosAndHowLaidAndWhatDoesNotCount()
    {
        var bundle = Mapped.Map(Samples.Repeated);
        var div = XElement.Parse(bundle.Only<DiagnosticReport>().Text!.Div!).Value;
        div.ShouldContain("Patient Vandermoss, born 1984-07-22, identifier AST-20-142, 41 years old on the day of the test.");
        div.ShouldContain("They are not a diagnosis".ToLowerInvariant());
        Tables(bundle)["Attempts that do not count"].Value.ShouldContain("void: Fire bell rang during the third card.");
        Tables(bundle)["Set-up and precautions"].Value.ShouldContain("Blue case");
        Tables(bundle)["Totals"].Value.ShouldContain("125.11 s");
    }

    // Nothing of a demonstration may be taken for a patient's result, and nothing else may be called one.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Map_Demonstration_SaysSoInEachNarrativeOfTheSession(bool demonstration)
    {
        var bundle = Mapped.Map(Samples.Clean, demonstration);
        bundle.Entry.Select(e => (DomainResource)e.Resource!).Where(r => r is not Device)
            .ShouldAllBe(r => r.Text!.Div!.Contains("DEMONSTRATION") == demonstration);
        bundle.Only<DiagnosticReport>().Conclusion!.Contains("DEMONSTRATION").ShouldBe(demonstration);
    }

    private static Dictionary<string, XElement> Tables(Bundle bundle) => XElement.Parse(bundle.Only<DiagnosticReport>().Text!.Div!)
        .Descendants(XName.Get("table", Xhtml)).ToDictionary(t => t.Element(XName.Get("caption", Xhtml))!.Value);
}
