using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Service.Charts.Pictures;

namespace HandFhirBridge.Service.Charts;

/// <summary>A course as the page is given it: the model, and what is made of the model for each series and as a file.</summary>
/// <param name="Course">The model.</param>
/// <param name="Pictures">SVG of each series, in the order of the series.</param>
/// <param name="Words">Each point of each series in words, in the same order.</param>
/// <param name="Csv">The same as a comma-separated file.</param>
/// <param name="Patient">Whose chart; null if the caller may not read the Patient.</param>
/// <param name="Report">Id of the DiagnosticReport the chart was opened for; null if none was named.</param>
/// <param name="Reports">Where a report is shown: an address with <c>{site}</c>, <c>{session}</c> and <c>{report}</c> to be replaced; null where it is not.</param>
public sealed record CourseView(
    Course Course,
    ImmutableArray<string> Pictures,
    ImmutableArray<ImmutableArray<string>> Words,
    string Csv,
    CoursePatient? Patient,
    string? Report,
    string? Reports)
{
    /// <summary>The view of <paramref name="course"/>.</summary>
    public static CourseView Of(Course course, CoursePatient? patient, string? report, string? reports)
    {
        ArgumentNullException.ThrowIfNull(course);
        return new(
            course,
            [.. course.Series.AsParallel().AsOrdered().Select(s => SeriesPicture.Of(course, s))],
            [.. course.Series.Select(s => s.Points.Select(p => CourseText.Sentence(course, p)).ToImmutableArray())],
            CourseFile.Of(course),
            patient,
            report,
            reports);
    }
}
