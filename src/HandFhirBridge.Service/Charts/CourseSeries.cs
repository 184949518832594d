using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Service.Charts;

/// <summary>One task or total with one hand over time.</summary>
/// <param name="Subject">Task id or total id.</param>
/// <param name="Title">In plain words.</param>
/// <param name="Hand">Hand.</param>
/// <param name="Points">One for each session of the course, oldest first.</param>
public sealed record CourseSeries(string Subject, string Title, Hand Hand, ImmutableArray<CoursePoint> Points);
