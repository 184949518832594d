using System.Text;
using HandFhirBridge.Outcomes.Tests.Rows;
using HandFhirBridge.Outcomes.Views;
using HandFhirBridge.Outcomes.Views.Definitions;
using Hl7.Fhir.FhirPath;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Hl7.FhirPath;
using Hl7.FhirPath.Expressions;

namespace HandFhirBridge.Outcomes.Tests.Views;

/// <summary>What is followed directly means what the SDK's FHIRPath means by it, expression by expression, nothing and several values included.</summary>
public sealed class DirectPathTests
{
    private static readonly FhirPathCompiler Sdk = new(new SymbolTable().AddStandardFP().AddFhirExtensions());
    private static readonly FhirJsonDeserializer Deserializer = new(new DeserializerSettings().UsingMode(DeserializationMode.Ostrich));

    public static TheoryData<string> Expressions =>
    [
        "id", "status", "Observation.status", "nosuch", "meta.profile", "code.coding.code", "code.coding.code.first()", "identifier.value", "extension.url",
        "value.ofType(Quantity).value", "value.ofType(Quantity).unit", "value.ofType(string)", "value.ofType(Quantity).value.toString()", "value.ofType(Quantity).toString()",
        "category.coding.where(code = 'exam').system", "category.coding.where(code = 'exam' or code = 'survey').code", "category.coding.where(code = 'exam' and system = 'x').code",
        "category.where(coding.exists(code = 'exam')).exists()", "category.coding.code.exists()", "category.coding.where(code = 'nix').empty()", "nosuch.exists()", "nosuch.empty()",
        "status = 'final'", "status != 'final'", "nosuch = 'final'", "nosuch != 'final'", "category.coding.code = 'exam'", "category.coding.code != 'exam'", "'exam' in category.coding.code", "'nix' in category.coding.code",
        "(status = 'final') and (nosuch = 'x')", "(status = 'nix') and (nosuch = 'x')", "(status = 'final') or (nosuch = 'x')", "(nosuch = 'x') or (status = 'nix')",
        "effective.ofType(dateTime)", "effective.ofType(dateTime).toString().substring(0, 10)", "effective.ofType(dateTime) = '2026-03-02T09:05:00+01:00'", "status.substring(2, 100)", "status.substring(99, 1)",
        "identifier.value.first().replaceMatches('^([^/]+)/.*$', '$1')", "identifier.value.first().replaceMatches('nix', '')", "category.coding.code.join('|')", "category.coding.system.distinct().join('|')",
        "extension('https://handfhirbridge.example/fhir/StructureDefinition/hfb-ext-outcome').value.ofType(code)", "extension('nix').value",
        "referenceRange.extension.extension('demonstrationOnly').value.ofType(boolean)", "referenceRange.extension.exists(extension('demonstrationOnly').value.ofType(boolean) = false)",
        "component.where(code.coding.code = 'z-score').value.ofType(Quantity).value", "component.code.coding.code.count()", "status.not().exists()", "value.ofType(Quantity).where(system = %ucum).code",
        "referenceRange.extension.extension('normSet').value.ofType(string).distinct().join('|')", "category.coding.where(code = 'exam').code.toString()", "extension.value.ofType(positiveInt)",
    ];

    [Theory]
    [MemberData(nameof(Expressions))]
    public void Rows_OfExpression_AreWhatTheSdkGives(string expression)
    {
        var view = $$"""{"resource": "Observation", "select": [{"column": [{"name": "v", "path": "{{expression}}", "collection": true}]}]}""";
        var runner = new ViewRunner(ViewDefinitionReader.Read(Encoding.UTF8.GetBytes(view)));
        foreach (var name in new[] { "completed", "declined", "stopped" })
        {
            var resource = Deserializer.DeserializeResource(InventedSet.Example($"Observation-example-trial-{name}", "x").ToJsonString());

            var ours = (object?[])runner.Rows(resource).ShouldHaveSingleItem()[0]!;

            var theirs = Sdk.Compile(expression)([resource.ToPocoNode()], new FhirEvaluationContext()).Select(n => n.Poco is PrimitiveType { JsonValue: string text } ? text : n.Poco.ToString());
            ours.ShouldBe(theirs);
        }
    }
}
