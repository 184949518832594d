using System.Text;
using HandFhirBridge.Outcomes.Views;
using HandFhirBridge.Outcomes.Views.Definitions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Outcomes.Tests.Views;

/// <summary>What the published files leave open: which problem is named, and where. Meaning of the elements: SQL on FHIR v2, StructureDefinition ViewDefinition.</summary>
public sealed class ViewRunnerTests
{
    private const string Id = """{"name": "id", "path": "id", "type": "id"}""";

    private static readonly Patient Patient = new()
    {
        Id = "p1",
        BirthDate = "1970-06",
        Active = true,
        Name = { new HumanName { Family = "F", Given = ["G1", "G2"] } },
    };

    [Theory]
    [InlineData("nonsense", "HFB7001", "$")]
    [InlineData("[]", "HFB7001", "$")]
    [InlineData("""{"resource": "Patient"}""", "HFB7002", "$.select")]
    [InlineData("""{"resource": "Patient", "select": []}""", "HFB7002", "$.select")]
    [InlineData("""{"resource": "Patient", "select": [{"column": [{"path": "id"}]}]}""", "HFB7002", "$.select[0].column[0].name")]
    [InlineData("""{"resource": "Patient", "select": [{"column": [{"name": "1st", "path": "id"}]}]}""", "HFB7003", "$.select[0].column[0].name")]
    [InlineData("""{"resource": "Patient", "select": [{"forEach": "name", "repeat": ["name"]}]}""", "HFB7003", "$.select[0]")]
    [InlineData("""{"resource": "Patient", "constant": [{"name": "a", "valuePeriod": {}}], "select": [{}]}""", "HFB7003", "$.constant[0].valuePeriod")]
    [InlineData("""{"resource": "Patient", "select": [{"column": [{"name": "a", "path": "nosuch()"}]}]}""", "HFB7004", "$.select[0].column[0].path")]
    [InlineData("""{"resource": "Patient", "select": [{"repeat": ["$this"], "column": [{"name": "a", "path": "id"}]}]}""", "HFB7004", "$.select[0].repeat[0]")]
    [InlineData("""{"resource": "Patient", "select": [{"column": [{"name": "a", "path": "%b"}]}]}""", "HFB7005", "$.select[0].column[0].path")]
    [InlineData("""{"resource": "Patient", "select": [{"column": [{"name": "a", "path": "id"}]}, {"column": [{"name": "a", "path": "id"}]}]}""", "HFB7006", "$.select[1].column[0].path")]
    [InlineData("""{"resource": "Patient", "select": [{"unionAll": [{"column": [{"name": "a", "path": "id"}]}, {"column": [{"name": "b", "path": "id"}]}]}]}""", "HFB7007", "$.select[0].unionAll[1]")]
    [InlineData("""{"resource": "Patient", "select": [{"column": [{"name": "a", "path": "name.given"}]}]}""", "HFB7008", "$.select[0].column[0].path")]
    [InlineData("""{"resource": "Patient", "select": [{"column": [{"name": "a", "path": "name"}]}]}""", "HFB7009", "$.select[0].column[0].path")]
    [InlineData("""{"resource": "Patient", "select": [{"column": [{"name": "a", "path": "id", "type": "integer"}]}]}""", "HFB7009", "$.select[0].column[0].path")]
    [InlineData("""{"resource": "Patient", "select": [{}], "where": [{"path": "id"}]}""", "HFB7010", "$.where[0].path")]
    public void Rows_OfFaultyView_NameProblemAndPlace(string view, string code, string location)
    {
        var problem = Should.Throw<ViewException>(() => Rows(view)).Problem;

        (problem.Code, problem.Location).ShouldBe((code, location));
    }

    [Fact]
    public void Rows_OfDecimal_KeepDigits()
    {
        var observation = new Observation { Id = "o1", Value = new Quantity { Value = 12.40m } };
        var runner = Runner("""{"resource": "Observation", "select": [{"column": [{"name": "seconds", "path": "value.ofType(Quantity).value", "type": "decimal"}]}]}""");

        runner.Rows(observation).ShouldHaveSingleItem()[0].ShouldBeOfType<decimal>().ToString(System.Globalization.CultureInfo.InvariantCulture).ShouldBe("12.40");
    }

    // SQL on FHIR v2, getReferenceKey: relative references must be supported; what cannot be resolved gives nothing.
    [Theory]
    [InlineData("Patient/p1", "Patient/p1")]
    [InlineData("https://record.example/fhir/Patient/p1/_history/2", "Patient/p1")]
    [InlineData("Group/p1", null)]
    [InlineData("#p1", null)]
    [InlineData("urn:uuid:6e8bc430-9c3a-11d9-9669-0800200c9a66", null)]
    public void ReferenceKey_OfReference_IsResourceKeyOrNothing(string reference, string? key)
    {
        var runner = Runner("""{"resource": "Observation", "select": [{"column": [{"name": "patient", "path": "subject.getReferenceKey(Patient)", "type": "string"}]}]}""");

        runner.Rows(new Observation { Subject = new(reference) }).ShouldHaveSingleItem().ShouldBe([key]);
    }

    // FHIRPath 3.0, lowBoundary and highBoundary: dates to the day, moments to the millisecond, in the widest zones where none is written.
    [Theory]
    [InlineData("2026", "2026-01-01T00:00:00.000+14:00", "2026-12-31T23:59:59.999-12:00")]
    [InlineData("2024-02", "2024-02-01T00:00:00.000+14:00", "2024-02-29T23:59:59.999-12:00")]
    [InlineData("2026-03-02T09:05:00+01:00", "2026-03-02T09:05:00.000+01:00", "2026-03-02T09:05:00.999+01:00")]
    [InlineData("2026-03-02T09:05:00.250Z", "2026-03-02T09:05:00.250Z", "2026-03-02T09:05:00.250Z")]
    public void Boundaries_OfMoment_AreWidestItCanMean(string written, string low, string high)
    {
        var runner = Runner("""{"resource": "Observation", "select": [{"column": [{"name": "low", "path": "effective.lowBoundary()"}, {"name": "high", "path": "effective.highBoundary()"}]}]}""");

        runner.Rows(new Observation { Effective = new FhirDateTime(written) }).ShouldHaveSingleItem().ShouldBe([low, high]);
    }

    [Fact]
    public void Columns_WithTag_HaveTypeOfSql() =>
        Runner($$"""{"resource": "Patient", "select": [{"column": [{{Id}}, {"name": "n", "path": "1.5", "type": "decimal", "tag": [{"name": "ansi/type", "value": "DECIMAL(9,3)"}]}]}]}""")
            .Columns.ShouldBe([new("id", ColumnKind.Text, false, null), new("n", ColumnKind.Number, false, "DECIMAL(9,3)")]);

    [Fact]
    public void Rows_OnSeveralThreads_AreTheSame()
    {
        var runner = Runner("""{"resource": "Patient", "constant": [{"name": "c", "valueString": "x"}], "select": [{"forEach": "name.given", "column": [{"name": "i", "path": "%rowIndex", "type": "integer"}, {"name": "g", "path": "$this & %c"}]}]}""");

        Enumerable.Range(0, 200).AsParallel().Select(_ => string.Join(';', runner.Rows(Patient).Select(r => $"{r[0]}{r[1]}"))).Distinct().ShouldBe(["0G1x;1G2x"]);
    }

    private static List<object?[]> Rows(string view) => [.. Runner(view).Rows(Patient)];

    private static ViewRunner Runner(string view) => new(ViewDefinitionReader.Read(Encoding.UTF8.GetBytes(view)));
}
