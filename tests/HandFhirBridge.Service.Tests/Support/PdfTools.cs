using System.ComponentModel;
using System.Diagnostics;

namespace HandFhirBridge.Service.Tests.Support;

/// <summary>Programs of others that read PDFs: poppler (https://poppler.freedesktop.org) and qpdf (https://qpdf.readthedocs.io).</summary>
internal static class PdfTools
{
    /// <summary>The text of a PDF as poppler extracts it.</summary>
    public static Task<string> TextAsync(string file, CancellationToken cancellation) => RunAsync("pdftotext", "poppler-utils", ["-layout", file, "-"], cancellation);

    /// <summary>Title, language mark, page size and tags as poppler reads them.</summary>
    public static Task<string> InfoAsync(string file, CancellationToken cancellation) => RunAsync("pdfinfo", "poppler-utils", [file], cancellation);

    /// <summary>Fonts, and whether they are embedded.</summary>
    public static Task<string> FontsAsync(string file, CancellationToken cancellation) => RunAsync("pdffonts", "poppler-utils", [file], cancellation);

    /// <summary>qpdf's check of structure and streams; fails on an error and on a warning.</summary>
    public static Task<string> CheckAsync(string file, CancellationToken cancellation) => RunAsync("qpdf", "qpdf", ["--check", file], cancellation);

    /// <summary>The document with its streams laid open.</summary>
    public static Task<string> OpenedAsync(string file, CancellationToken cancellation) => RunAsync("qpdf", "qpdf", ["--qdf", "--object-streams=disable", file, "-"], cancellation);

    private static async Task<string> RunAsync(string program, string package, string[] arguments, CancellationToken cancellation)
    {
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        Process process;
        try
        {
            process = Process.Start(start)!;
        }
        catch (Win32Exception)
        {
            Assert.Skip($"{program} is not installed (Debian: {package}).");
            return "";
        }

        using (process)
        {
            var complaint = process.StandardError.ReadToEndAsync(cancellation);
            var output = await process.StandardOutput.ReadToEndAsync(cancellation);
            await process.WaitForExitAsync(cancellation);
            process.ExitCode.ShouldBe(0, $"{program}: {await complaint}");
            return output;
        }
    }
}
