using System.Globalization;
using System.Xml.Linq;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Service.Charts;
using static HandFhirBridge.Service.Tests.Charts.Courses;

namespace HandFhirBridge.Service.Tests.Charts;

public sealed class CoursePictureTests
{
    private static readonly Course Mixed = Of(
        Scored(On(0, 12m)), Scored(On(10, 120m, TrialOutcome.StoppedAtCap)), Scored(On(20, null, TrialOutcome.NotGiven)), Scored(On(40, 9m)), Scored(On(80, 6m)));

    [Fact]
    public void Picture_Points_LieByTrueDateAndValue()
    {
        var points = Points(Mixed);
        double X(int place) => points[place].X;
        double Y(int place) => points[place].Y;

        // Days 0, 10, 20, 40, 80 and 12, 9, 6 seconds: distances are to one another as these are.
        ((X(3) - X(0)) / (X(4) - X(0))).ShouldBe(40 / 80.0, 0.01);
        ((X(1) - X(0)) / (X(4) - X(0))).ShouldBe(10 / 80.0, 0.01);
        ((Y(3) - Y(0)) / (Y(4) - Y(0))).ShouldBe(3 / 6.0, 0.01);
        // Slower is higher; a stopped trial lies above every time, one without a time below the line of zero.
        Y(0).ShouldBeLessThan(Y(4));
        Y(1).ShouldBeLessThan(points.Where((_, place) => place != 1).Min(p => p.Y));
        var zero = Y(4) + ((Y(4) - Y(0)) / 6 * 6);
        Y(2).ShouldBeGreaterThan(zero);
    }

    [Fact]
    public void Picture_UnderThePagesPolicy_HasNoStyleAndNoScript()
    {
        foreach (var markup in CourseView.Of(Mixed, null, null, null).Pictures)
        {
            var svg = XElement.Parse(markup);
            svg.DescendantsAndSelf().ShouldAllBe(e => e.Attribute("style") == null && e.Name.LocalName != "script" && e.Name.LocalName != "style");
            svg.Elements().First().Name.LocalName.ShouldBe("title");
        }
    }

    // On one page an id of one picture must not be found for another: its clip path would cut the other's marks away.
    [Fact]
    public void Pictures_OnOnePage_ReferToTheirOwnPartsOnly()
    {
        var pictures = CourseView.Of(Mixed, null, null, null).Pictures.Select(XElement.Parse).ToList();

        pictures.SelectMany(p => p.DescendantsAndSelf()).Select(e => (string?)e.Attribute("id")).OfType<string>().ShouldBeUnique();
        foreach (var picture in pictures)
        {
            var own = picture.Descendants().Select(e => $"url(#{(string?)e.Attribute("id")})").ToHashSet();
            picture.Descendants().Select(e => (string?)e.Attribute("clip-path")).OfType<string>().ShouldAllBe(clip => own.Contains(clip));
        }
    }

    // 0.7 em a letter is wider than any common sans-serif font is on average.
    [Fact]
    public void Picture_LabelsAtTheLeft_FitInAnyFont()
    {
        var slow = Of(Scored(On(0, 299.99m)), Scored(On(10, 120m, TrialOutcome.StoppedAtCap)), Scored(On(20, null, TrialOutcome.NotGiven)));
        foreach (var text in CourseView.Of(slow, null, null, null).Pictures.SelectMany(p => XElement.Parse(p).Descendants()).Where(e => (string?)e.Attribute("text-anchor") == "end"))
        {
            var at = ((string?)text.Attribute("transform")).ShouldNotBeNull().Split('(', ',')[1];
            (double.Parse(at, CultureInfo.InvariantCulture) - (text.Value.Length * 0.7 * 12)).ShouldBeGreaterThan(0, text.Value);
        }
    }

    [Fact]
    public void Picture_EachPoint_HasAMarkAtItsPlaceInsideTheFrame()
    {
        var picture = XElement.Parse(CourseView.Of(Mixed, null, null, null).Pictures[Mixed.Series.IndexOf(Mixed.Varied())]);
        var circles = picture.Descendants().Where(e => e.Name.LocalName == "ellipse").Select(e => (X: Number(e, "cx"), Y: Number(e, "cy"))).ToList();

        var points = Points(Mixed);
        points.ShouldAllBe(p => p.X > 0 && p.X < 380 && p.Y > 0 && p.Y < 250);
        foreach (var time in new[] { points[0], points[3], points[4] })
        {
            circles.ShouldContain(c => Math.Abs(c.X - time.X) < 0.2 && Math.Abs(c.Y - time.Y) < 0.2);
        }
    }

    [Fact]
    public void Words_OfEachPoint_SayValueNormAndWhy()
    {
        var words = CourseView.Of(Mixed, null, null, null).Words[Mixed.Series.IndexOf(Mixed.Varied())];

        words[0].ShouldContain("12 s");
        words[0].ShouldContain("norm mean");
        words[1].ShouldContain("stopped at the cap, longer than 120 s");
        words[2].ShouldContain("no time, not given (splint)");
        words[4].ShouldContain("-6.00 s since the first comparable time: faster beyond measurement error");
    }

    // RFC 4180, section 2: records end with CRLF; fields with commas or quotes are quoted.
    [Fact]
    public void Csv_EachPoint_IsALineWithItsDigits()
    {
        var lines = CourseView.Of(Of(Scored(On(0, 12.40m)), Scored(On(9, null, TrialOutcome.NotGiven))), null, null, null).Csv.Split("\r\n", StringSplitOptions.RemoveEmptyEntries);

        lines.Length.ShouldBe(1 + (2 * 18));
        var columns = lines[0].Split(',');
        var varied = lines.Where(l => l.Contains(",card-turning,", StringComparison.Ordinal) && l.Contains(",left,", StringComparison.Ordinal)).ToList();
        varied.Count.ShouldBe(2);
        var first = varied[0].Split(',');
        first[Array.IndexOf(columns, "seconds")].ShouldBe("12.40");
        first[Array.IndexOf(columns, "kind")].ShouldBe("time");
        var missing = varied[1].Split(',');
        missing[Array.IndexOf(columns, "seconds")].ShouldBe("");
        missing[Array.IndexOf(columns, "kind")].ShouldBe("no-time");
    }

    [Fact]
    public void Csv_TextThatASpreadsheetWouldRun_IsEscaped()
    {
        var session = On(0, null, TrialOutcome.NotGiven);
        session = session with { Trials = [.. session.Trials.Select(t => t.Outcome == TrialOutcome.NotGiven ? t with { Reason = "=1+1" } : t)] };

        CourseView.Of(Of(Scored(session)), null, null, null).Csv.ShouldNotContain(",=1+1");
    }

    private static List<(double X, double Y)> Points(Course course) =>
    [
        .. XElement.Parse(CourseView.Of(course, null, null, null).Pictures[course.Series.IndexOf(course.Varied())]).Descendants()
            .Where(e => (string?)e.Attribute("class") == "visit")
            .Select(e => (Middle(e, "x", "width"), Middle(e, "y", "height"))),
    ];

    private static double Middle(XElement element, string start, string length) => Number(element, start) + (Number(element, length) / 2);

    private static double Number(XElement element, string name) => double.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);
}
