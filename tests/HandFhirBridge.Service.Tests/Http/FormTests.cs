using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using HandFhirBridge.Service.Tests.Support;
using Hl7.Fhir.Model;
using Task = System.Threading.Tasks.Task;

namespace HandFhirBridge.Service.Tests.Http;

/// <summary>Forms over HTTP (HL7 Structured Data Capture, operation QuestionnaireResponse-extract), as docs/forms.md promises it.</summary>
public sealed class FormTests(RunningService service) : IClassFixture<RunningService>
{
    private const string Key = "harbour-hand-clinic/HHC-004417-20260210";

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static string Form => File.ReadAllText(Repository.Example("forms", "tarrowby-visit-1.json"));

    [Fact]
    public async Task Extract_CompletedForm_GivesTheTransactionAndStoresNothing()
    {
        using var answer = await PostAsync(Form.Replace("HHC-004417-20260210", "form-tried", StringComparison.Ordinal));

        answer.StatusCode.ShouldBe(HttpStatusCode.OK, await answer.Content.ReadAsStringAsync(Cancellation));
        answer.Content.Headers.ContentType!.MediaType.ShouldBe("application/fhir+json");
        var bundle = FhirAnswer.Parse<Bundle>(await answer.Content.ReadAsStringAsync(Cancellation));
        bundle.Type.ShouldBe(Bundle.BundleType.Transaction);
        bundle.Entry.Count(entry => entry.Resource is Observation { Value: Quantity { Unit: "s" } }).ShouldBeGreaterThan(12);
        using var state = await service.Api.GetAsync(new Uri("sessions/harbour-hand-clinic/form-tried", UriKind.Relative), Cancellation);
        await state.ShouldBeRefusedAsync(HttpStatusCode.NotFound, "HFB6002");
    }

    // The form holds the facts of the document, so handing both in is handing one session in twice.
    [Fact]
    public async Task Extract_Deliver_IsHandedInDeliveredAndTheSameSessionAsItsDocument()
    {
        using var answer = await PostAsync(Form, "?deliver=true");

        answer.StatusCode.ShouldBe(HttpStatusCode.Accepted, await answer.Content.ReadAsStringAsync(Cancellation));
        answer.Headers.Location!.OriginalString.ShouldBe($"/sessions/{Key}");
        await Clinic.DeliveredAsync(service.Api, Key, Cancellation);
        await Clinic.SubmitAsync(service.Api, await File.ReadAllTextAsync(Repository.Example("sessions", "harbour-hand-clinic", "tarrowby-visit-1.json"), Cancellation), Cancellation);
        (await Clinic.SearchAsync(
            service.Process.Record, $"DiagnosticReport?identifier=https://handfhirbridge.example/identifier/report|{Key}", Cancellation)).ShouldHaveSingleItem();
    }

    [Fact]
    public async Task Extract_FormInProgress_IsRefusedAtItsPlace()
    {
        using var answer = await PostAsync(Form.Replace("\"completed\",", "\"in-progress\",", StringComparison.Ordinal), "?deliver=true");

        var issue = await answer.ShouldBeRefusedAsync(HttpStatusCode.UnprocessableEntity, "HFB3303");
        issue.Expression.ShouldBe(["QuestionnaireResponse.status"]);
    }

    [Fact]
    public async Task Questionnaire_ByIdAndByUrl_IsServed()
    {
        var read = FhirAnswer.Parse<Questionnaire>(await service.Api.GetStringAsync(new Uri("fhir/Questionnaire/hfb-session", UriKind.Relative), Cancellation));
        var url = Uri.EscapeDataString($"{read.Url}|{read.Version}");
        var found = FhirAnswer.Parse<Bundle>(await service.Api.GetStringAsync(new Uri($"fhir/Questionnaire?url={url}", UriKind.Relative), Cancellation));

        found.Entry.ShouldHaveSingleItem().Resource!.Id.ShouldBe("hfb-session");
        using var none = await service.Api.GetAsync(new Uri("fhir/Questionnaire/falls", UriKind.Relative), Cancellation);
        await none.ShouldBeRefusedAsync(HttpStatusCode.NotFound, "HFB6013");
    }

    // R4 http.html#capabilities: [base]/metadata tells what is offered.
    [Fact]
    public async Task Metadata_NamesTheOperation()
    {
        var statement = FhirAnswer.Parse<CapabilityStatement>(await service.Api.GetStringAsync(new Uri("fhir/metadata", UriKind.Relative), Cancellation));

        statement.FhirVersion.ShouldBe(FHIRVersion.N4_0_1);
        statement.Rest.Single().Resource.Single(r => r.Type == "QuestionnaireResponse").Operation.Single().Definition
            .ShouldBe("http://hl7.org/fhir/uv/sdc/OperationDefinition/QuestionnaireResponse-extract");
    }

    private async Task<HttpResponseMessage> PostAsync(string form, string query = "")
    {
        JsonNode.Parse(form).ShouldNotBeNull();
        using var body = new StringContent(form, Encoding.UTF8, "application/fhir+json");
        return await service.Api.PostAsync(new Uri($"fhir/QuestionnaireResponse/$extract{query}", UriKind.Relative), body, Cancellation);
    }
}
