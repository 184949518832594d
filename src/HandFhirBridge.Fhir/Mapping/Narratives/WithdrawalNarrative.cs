using System.Xml.Linq;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>
/// What a reader of a withdrawn resource sees: that it is withdrawn, why, and by whom, and none of its values, so that nobody
/// takes them for valid ones. The values themselves stay in the data.
/// </summary>
internal static class WithdrawalNarrative
{
    /// <summary>First word of all of them.</summary>
    public const string Mark = "WITHDRAWN";

    public static Narrative OfResult(Withdrawal withdrawal, Observation result) => Of(
        result, Announce(withdrawal, "result"), $"It is of: {result.Code.Coding.Select(c => c.Display).FirstOrDefault(d => d is not null) ?? "handedness"}.", Kept);

    public static Narrative OfReport(Withdrawal withdrawal, DiagnosticReport report) => Of(
        report, Announce(withdrawal, "report"), $"{Signed(withdrawal)} {Kept}", [.. report.PresentedForm.Select(Detached)]);

    public static Narrative OfSetup(Withdrawal withdrawal, QuestionnaireResponse response) =>
        Of(response, Announce(withdrawal, "set-up response"), Signed(withdrawal), Kept);

    public static Narrative OfProvenance(Withdrawal withdrawal, Provenance provenance) =>
        Of(provenance, Announce(withdrawal, "session"), Signed(withdrawal));

    /// <summary>The conclusion of a withdrawn report; R4 has it replaced, since viewers show it by itself.</summary>
    public static string Conclusion(Withdrawal withdrawal, DiagnosticReport report) => string.Join(
        " ", (IEnumerable<string>)[Announce(withdrawal, "report"), Signed(withdrawal), .. IsDemonstration(report) ? [Wording.Demonstration] : Array.Empty<string>()]);

    private const string Kept = "Its values stay in the data of the resource as a trace of what was reported; they are not valid.";

    private static string Announce(Withdrawal withdrawal, string what) =>
        PlainWords.Sentence($"{Mark}: this {what} was entered in error and must not be used. Reason: {withdrawal.Reason}");

    private static string Signed(Withdrawal withdrawal) =>
        $"Session {withdrawal.Session.Session}, revision {withdrawal.Withdrawn}, was withdrawn by {withdrawal.By} on {PlainWords.Moment(withdrawal.At)}.";

    private static string Detached(Attachment form) => $"Attached until now and no longer: {form.Title ?? form.ContentType ?? "a document"}; earlier versions of this report keep it.";

    private static Narrative Of(Resource resource, string announcement, params string[] sentences) => Xhtml.Narrative(
    [
        .. IsDemonstration(resource) ? [Xhtml.Strong(Wording.Demonstration)] : Array.Empty<XElement>(),
        Xhtml.Strong(announcement),
        .. sentences.Select(Xhtml.Paragraph),
    ]);

    private static Narrative Of(Resource resource, string announcement, string sentence, string[] more) => Of(resource, announcement, [sentence, .. more]);

    private static bool IsDemonstration(Resource resource) =>
        resource.Meta?.Security.Any(label => label.System == CodeSystems.ActReason && label.Code == "HTEST") == true;
}
