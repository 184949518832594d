using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Fhir.Reading;
using HandFhirBridge.Service.Reports;
using HandFhirBridge.Service.Reports.Contents;
using HandFhirBridge.Service.Reports.Printing;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Service.Pipeline;

/// <summary>
/// Puts the printed report on the DiagnosticReport. It is made by reading the mapped resources back, as the page is made from
/// the record, so that what is printed is what the resources say and not what this service remembers.
/// </summary>
/// <param name="reader">Reads resources back into sessions.</param>
/// <param name="builder">Makes the report.</param>
/// <param name="sites">Says on which paper a clinic prints.</param>
public sealed class PresentedForms(SessionResources reader, ReportBuilder builder, SiteRegister sites)
{
    /// <summary>Attaches the PDF of a session's report; empty, or why what was mapped cannot be read back.</summary>
    /// <param name="bundle">Mapped resources, the report among them.</param>
    /// <param name="earlier">The session compared with, or why there is none.</param>
    public ImmutableArray<Problem> Attach(Bundle bundle, EarlierFinding earlier)
    {
        ArgumentNullException.ThrowIfNull(bundle);
        var read = reader.Read(bundle.Entry.Select(entry => entry.Resource).OfType<Resource>());
        if (read.Value is { } scored)
        {
            var report = ReportOf(bundle);
            Attach(report, ReportWriting.Of(builder.Build(report, scored, earlier)), scored.Session.Site);
        }

        return [.. read.Problems];
    }

    /// <summary>Attaches the PDF that says a session is withdrawn, in place of its report.</summary>
    /// <param name="bundle">Withdrawn resources, the report among them.</param>
    /// <param name="site">Its clinic.</param>
    /// <param name="sessionId">Its id.</param>
    public void AttachWithdrawal(Bundle bundle, string site, string sessionId)
    {
        ArgumentNullException.ThrowIfNull(bundle);
        var report = ReportOf(bundle);
        Attach(report, ReportWriting.Of(WithdrawalNotice.Of(report, site, sessionId)), site);
    }

    private static DiagnosticReport ReportOf(Bundle bundle) => bundle.Entry.Select(entry => entry.Resource).OfType<DiagnosticReport>().Single();

    [SuppressMessage("Security", "CA5350", Justification = "R4 prescribes SHA-1 for Attachment.hash; it tells copies apart, it does not protect.")]
    private void Attach(DiagnosticReport report, ReportContents contents, string site)
    {
        var bytes = PdfReport.Of(contents, sites.PaperOf(site));
        report.PresentedForm =
        [
            new()
            {
                ContentType = "application/pdf",
                Language = "en",
                Data = bytes,
                SizeUnsignedInt = bytes.Length,
                Hash = SHA1.HashData(bytes),
                Title = contents.Title,
                CreationElement = report.Issued is { } issued ? new FhirDateTime(issued) : null,
            },
        ];
    }
}
