using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Output;

/// <summary>Problems as plain sentences for a person at a terminal.</summary>
public static class ProblemText
{
    /// <summary>One line: place, code, severity, where in the document, what is wrong, what to do.</summary>
    public static void Write(TextWriter output, Problem problem)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(problem);
        output.WriteLine($"  {problem}");
    }
}
