using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using HandFhirBridge.Outcomes.Deidentification;
using HandFhirBridge.Outcomes.Tests.Rows;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Outcomes.Tests.Deidentification;

/// <summary>Resources against the 18 categories of 45 CFR 164.514(b)(2)(i).</summary>
public sealed class ResourceDeidentifierTests : IDisposable
{
    private static readonly string[] Examples =
        ["Observation-example-trial-completed", "Observation-example-trial-stopped", "Observation-example-total", "Observation-example-panel", "Observation-example-dominance", "DiagnosticReport-example-report"];

    private readonly Keys keys = new();
    private readonly RemovalReport report = new();

    public static TheoryData<char> Paragraphs => [.. Planted.Values.Keys];

    public void Dispose() => keys.Dispose();

    [Theory]
    [MemberData(nameof(Paragraphs))]
    public void Resource_ValuePlantedEverywhere_DoesNotSurvive(char paragraph)
    {
        var value = Planted.Values[paragraph];
        foreach (var resource in Examples.Select(e => InventedSet.Example(e, "x")).Append(Person("1950-05-05")).Append(Diagnosis()))
        {
            var planted = Planted.In(resource, value);
            Plain(planted.ToJsonString()).ShouldContain(Plain(value)); // so that the check can fail
            foreach (var dates in Enum.GetValues<DateRule>())
            {
                var left = Of(planted, dates)!;
                Plain(left).ShouldNotContain(Plain(value), Case.Insensitive);
                left.ShouldNotContain(Uri.EscapeDataString(value), Case.Insensitive);
                left.ShouldNotContain(Convert.ToBase64String(Encoding.UTF8.GetBytes(value)));
            }
        }
    }

    [Fact]
    public void Resource_Trial_KeepsWhatFiguresAreMadeOf()
    {
        var trial = InventedSet.Example("Observation-example-trial-completed", "t1", seconds: "12.40");
        var left = JsonNode.Parse(Of(trial, DateRule.Year)!)!;
        left["valueQuantity"]!.ToJsonString().ShouldContain("12.40"); // digits as entered
        ((string)left["effectiveDateTime"]!).ShouldBe("2026");
        ((string)left["code"]!["coding"]![0]!["code"]!).ShouldBe("card-turning-left");
        left["component"]!.AsArray().Select(c => (string?)c!["valueQuantity"]?["code"]).OfType<string>().ShouldBe(["{score}", "%"]);
        left["referenceRange"]![0]!["extension"]![0]!["extension"]!.AsArray().Select(e => (string)e!["url"]!)
            .ShouldBe(["normSet", "version", "evidence", "demonstrationOnly", "mean", "standardDeviation"]);
        var parts = ((string)left["identifier"]![0]!["value"]!).Split('/');
        parts.Length.ShouldBe(4);
        parts[2..].ShouldBe(["card-turning", "left"]);
        parts[0].ShouldNotContain("north");
        left["performer"].ShouldBeNull();
        left["meta"].ShouldBeNull();
    }

    [Fact]
    public void Resource_WhatIsLeft_IsStillFhir()
    {
        var parser = new FhirJsonDeserializer(new DeserializerSettings().UsingMode(DeserializationMode.Strict));
        foreach (var resource in Examples.Select(e => InventedSet.Example(e, "x")).Append(Person("1950-05-05")).Append(Diagnosis()))
        {
            foreach (var dates in Enum.GetValues<DateRule>())
            {
                parser.DeserializeResource(Of(resource, dates)!).ShouldBeAssignableTo<Resource>();
            }
        }
    }

    [Fact]
    public void Resource_SubjectAndPatient_HaveOnePseudonymInASource()
    {
        var subject = JsonNode.Parse(Of(InventedSet.Example("Observation-example-total", "o1"), DateRule.Year)!)!["subject"]!["reference"];
        var patient = JsonNode.Parse(Of(Person("1950-05-05"), DateRule.Year)!)!["id"];
        ((string)subject!).ShouldBe($"Patient/{(string)patient!}");
        ((string)JsonNode.Parse(Of(Person("1950-05-05"), DateRule.Year, "south")!)!["id"]!).ShouldNotBe((string)patient!);
    }

    /// <summary>(C): "all ages over 89 and all elements of dates (including year) indicative of such age": not of birth alone.</summary>
    [Theory]
    [InlineData("1936-11-27", "1936")]
    [InlineData("1930-05-01", null)]
    [InlineData("1930", null)]
    public void Resource_ConditionOfLongAgo_TellsNoAgeOver89(string onset, string? year)
    {
        var condition = Diagnosis();
        condition["onsetDateTime"] = onset;

        var left = JsonNode.Parse(Of(condition, DateRule.Year)!)!;

        ((string?)left["onsetDateTime"]).ShouldBe(year);
    }

    /// <summary>(C): on 2026-11-26, who was born on 1936-11-26 is 90; part of a date may be the earliest day in it.</summary>
    [Theory]
    [InlineData("1936-11-27", "1936")]
    [InlineData("1936-11-26", null)]
    [InlineData("1936-12", "1936")]
    [InlineData("1936-11", null)]
    [InlineData("1937", "1937")]
    [InlineData("1936", null)]
    [InlineData("1905-01-01", null)]
    [InlineData("05/05/1950", null)]
    public void Resource_BirthDate_IsTheYearUnlessItTellsOfAnAgeOver89(string born, string? left) =>
        ((string?)JsonNode.Parse(Of(Person(born), DateRule.Year)!)!["birthDate"]).ShouldBe(left);

    [Fact]
    public void Resource_NormOfAgesOver89_IsThatOf90AndOlder()
    {
        var trial = InventedSet.Example("Observation-example-trial-completed", "t1");
        trial["referenceRange"]![0]!["age"] = JsonNode.Parse("""{"low":{"value":93,"code":"a","system":"http://unitsofmeasure.org"},"high":{"value":94,"code":"a","system":"http://unitsofmeasure.org"}}""");
        JsonNode.Parse(Of(trial, DateRule.Year)!)!["referenceRange"]![0]!["age"]!.ToJsonString().ShouldBe("""{"low":{"value":90,"system":"http://unitsofmeasure.org","code":"a"}}""");
    }

    [Fact]
    public void Resource_Shifted_KeepsIntervalsAndNoTimeOfDay()
    {
        var days = new[] { "2026-03-02T09:05:00+01:00", "2026-04-13T16:45:00+02:00" }
            .Select(at => (string)JsonNode.Parse(Of(InventedSet.Example("Observation-example-total", "o1", started: at), DateRule.Shifted)!)!["effectiveDateTime"]!)
            .Select(day => DateOnly.ParseExact(day, "yyyy-MM-dd")).ToArray();
        (days[1].DayNumber - days[0].DayNumber).ShouldBe(42);
        days[0].ShouldBeLessThan(new DateOnly(2026, 3, 2));
        keys.Options(DateRule.Shifted).Statement.ShouldStartWith("Not de-identified by the safe harbor method");
    }

    [Theory]
    [InlineData("Device")]
    [InlineData("Provenance")]
    [InlineData("Practitioner")]
    [InlineData("QuestionnaireResponse")]
    public void Resource_TypeThatNamesPeopleOrThings_IsWithheld(string type)
    {
        Of(new JsonObject { ["resourceType"] = type, ["id"] = "x" }, DateRule.Year).ShouldBeNull();
        report.Withheld.ShouldBe([new(type, 1)]);
        report.Given.ShouldBe(0);
    }

    [Fact]
    public void Resource_Patient_IsReportedByParagraph()
    {
        var person = Person("1950-05-05");
        person["name"] = new JsonArray(new JsonObject { ["family"] = "A" }, new JsonObject { ["family"] = "B" });
        person["telecom"] = JsonNode.Parse("""[{"system":"phone","value":"1"},{"system":"fax","value":"2"},{"system":"email","value":"3"}]""");
        person["photo"] = JsonNode.Parse("""[{"data":"AA=="}]""");
        person["address"] = JsonNode.Parse("""[{"city":"x"}]""");
        person["identifier"] = new JsonArray([.. new[] { "SS", "MR", "MB", "AN", "DL" }.Select(Numbered)]);
        Of(person, DateRule.Year);
        report.Removed.ShouldBe(
            [
                new(SafeHarborRule.AName, 2), new(SafeHarborRule.BPlace, 1), new(SafeHarborRule.CDate, 1), new(SafeHarborRule.DTelephone, 1), new(SafeHarborRule.EFax, 1),
                new(SafeHarborRule.FMail, 1), new(SafeHarborRule.GSocialSecurity, 1), new(SafeHarborRule.HMedicalRecord, 1), new(SafeHarborRule.IHealthPlan, 1),
                new(SafeHarborRule.JAccount, 1), new(SafeHarborRule.KLicense, 1), new(SafeHarborRule.QImage, 1), new(SafeHarborRule.ROther, 1),
            ]);
    }

    private static JsonObject Numbered(string kind) => new()
    {
        ["type"] = new JsonObject { ["coding"] = new JsonArray(new JsonObject { ["system"] = "http://terminology.hl7.org/CodeSystem/v2-0203", ["code"] = kind }) },
        ["value"] = "7",
    };

    private static JsonObject Person(string born) => new() { ["resourceType"] = "Patient", ["id"] = "p1", ["gender"] = "female", ["birthDate"] = born };

    private static JsonObject Diagnosis() => new()
    {
        ["resourceType"] = "Condition", ["id"] = "c1", ["subject"] = new JsonObject { ["reference"] = "Patient/p1" }, ["recordedDate"] = "2026-03-02",
        ["code"] = new JsonObject { ["coding"] = new JsonArray(new JsonObject { ["system"] = "http://hl7.org/fhir/sid/icd-10-cm", ["code"] = "G56.01" }) },
    };

    // JSON writes some signs as escapes; a planted value must be found all the same.
    private static string Plain(string json) => json.Replace("\\u002B", "+", StringComparison.OrdinalIgnoreCase).Replace("\\/", "/", StringComparison.Ordinal);

    private string? Of(JsonNode resource, DateRule dates, string source = "north")
    {
        using var document = JsonDocument.Parse(resource.ToJsonString());
        return new ResourceDeidentifier(keys.Options(dates), report).Resource(source, document.RootElement);
    }
}
