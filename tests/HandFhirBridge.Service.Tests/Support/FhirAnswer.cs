using System.Net;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Service.Tests.Support;

/// <summary>Reads answers as a FHIR client of others would: with the SDK's strict parser.</summary>
internal static class FhirAnswer
{
    private static readonly FhirJsonDeserializer Strict = new(new DeserializerSettings().UsingMode(DeserializationMode.Strict));

    public static T Parse<T>(string json)
        where T : Resource => Strict.Deserialize<T>(json);

    /// <summary>Demands a refusal with this status and code, and gives the issue that carries the code.</summary>
    public static async Task<OperationOutcome.IssueComponent> ShouldBeRefusedAsync(
        this HttpResponseMessage answer, HttpStatusCode status, string code)
    {
        var body = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        answer.StatusCode.ShouldBe(status, body);
        answer.Content.Headers.ContentType!.MediaType.ShouldBe("application/fhir+json");
        var issue = Parse<OperationOutcome>(body).Issue.Where(i => i.Severity == OperationOutcome.IssueSeverity.Error)
            .ShouldHaveSingleItem();
        var details = issue.Details.ShouldNotBeNull();
        details.Coding.ShouldHaveSingleItem().Code.ShouldBe(code, body);
        details.Text.ShouldNotBeNullOrWhiteSpace();
        issue.Diagnostics.ShouldNotBeNullOrWhiteSpace();
        return issue;
    }
}
