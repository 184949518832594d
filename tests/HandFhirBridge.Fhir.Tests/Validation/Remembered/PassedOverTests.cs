using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using HandFhirBridge.Fhir.Validation.Remembered;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Validation.Remembered;

/// <summary>No definition in hand asks of a passed-over value more than a shape holds of it (ADR 0404).</summary>
public sealed partial class PassedOverTests
{
    private const string Answer = "QuestionnaireResponse.item.answer";

    // Rules that name an element of such a name, or read whatever is there, and why a shape holds what they read. The digits
    // are the first of the SHA-256 of the expression: another expression has to be read again, and the class changed if need be.
    private static readonly Dictionary<string, string> Reviewed = new(StringComparer.Ordinal)
    {
        ["age-1 b1bca5cb"] = "Age.value is not passed over",
        ["att-1 da2ed0c9"] = "existence of data",
        ["bdl-7 089204ed"] = "addresses of entries are distinct, their resources without version",
        ["bdl-8 8828493c"] = "an address is urn:uuid",
        ["bdl-9 3c87dcf4"] = "existence of an identifier's value",
        ["cnt-3 9314cb6e"] = "Count.value is not passed over",
        ["cpt-2 9fbfbd7b"] = "existence",
        ["dis-1 6d549be5"] = "existence",
        ["dom-3 835750ce"] = "a resource that contains others is not remembered",
        ["dom-6 46eb0bdd"] = "existence of a narrative",
        ["drt-1 060cae22"] = "existence",
        ["ele-1 97b99a01"] = "existence",
        ["exp-1 da01d44c"] = "existence",
        ["ext-1 32e4a881"] = "existence",
        ["hfb-1 c5a33f13"] = "existence",
        ["hfb-2 f56acc94"] = "existence of a comparator, codes word for word",
        ["hfb-3 fb506961"] = "existence of a comparator, codes word for word",
        ["hfb-4 0d7802c8"] = "existence, status word for word",
        ["hfb-5 7069fb9e"] = "decimal against 0",
        ["hfb-6 a4520a58"] = "codes word for word",
        ["hfb-9 39710ad0"] = "decimal against 2, codes word for word",
        ["hfb-10 229c187b"] = "existence, outcome word for word",
        ["hfb-11 7c9a80a8"] = "existence, outcome word for word",
        ["hfb-12 e49c986b"] = "truth word for word, DEMONSTRATION in words",
        ["hfb-13 a0e67084"] = "decimal against 0, order of low and high",
        ["hfb-14 6c2ad78d"] = "existence, codes word for word, number of references",
        ["hfb-15 a63671b5"] = "existence",
        ["hfb-16 86c27415"] = "decimal against 0, linkId word for word",
        ["hfb-17 56843116"] = "existence, codes word for word",
        ["hfb-18 c4d97169"] = "a moment has more than ten characters",
        ["hfb-19 3f17fe64"] = "a revision is word for word",
        ["hfb-20 a68d9747"] = "truth word for word, DEMONSTRATION in words",
        ["hfb-21 e1f64a00"] = "digest in words",
        ["hfb-22 1a9d59e4"] = "codes word for word",
        ["hfb-23 c1904584"] = "existence",
        ["hfb-25 4978e613"] = "references word for word, or urn:uuid",
        ["obs-3 2fd64b9a"] = "existence",
        ["obs-6 52accf65"] = "existence",
        ["obs-7 f3b32017"] = "codes word for word",
        ["per-1 1e893b25"] = "order of start and end",
        ["ref-1 136606a2"] = "a reference that begins with # is not remembered",
        ["rng-2 cb366a56"] = "order of low and high in one unit",
        ["trd-1 e52b4e51"] = "existence",
        ["trd-2 5d3f7481"] = "existence",
        ["trd-3 63b50c49"] = "TriggerDefinition.name is not passed over",
        ["txt-1 bcaf87d2"] = "markup",
        ["txt-2 bcaf87d2"] = "markup; where there is text",
    };

    // Names of passed-over elements; those that only count within a coding of an answer, a tag or an entry are no names a rule could mean.
    private static readonly HashSet<string> Names =
        [.. PassedOver.Places.Select(place => place.Element).Except(["system", "code", "url"]), "reference", "low", "high"];

    private static readonly HashSet<string> ReadAnything =
        ["descendants", "children", "repeat", "$this", "toString", "resolve", "memberOf", "conformsTo", "htmlChecks", "intersect", "isDistinct"];

    [Fact]
    public void Definitions_PassedOverElements_AreNeitherFixedNorLimitedNorBound()
    {
        var passedOver = DefinedElements.All.Where(defined => IsPassedOver(defined.Holder, defined.Name)).ToList();

        passedOver.Count.ShouldBeGreaterThan(100);
        passedOver.Where(defined => defined.Element is { Fixed: not null } or { Pattern: not null } or { MinValue: not null } or { MaxValue: not null } or { MaxLength: not null }
                || defined.Element.Binding?.Strength is BindingStrength.Required or BindingStrength.Extensible)
            .Select(defined => $"{defined.Definition}: {defined.Element.ElementId}").ShouldBeEmpty();
    }

    [Fact]
    public void Definitions_FixedValuesAndPatterns_NameNoPassedOverValue() =>
        (from defined in DefinedElements.All
         from given in new[] { defined.Element.Fixed, defined.Element.Pattern }.OfType<DataType>()
         from named in Named(given, given.TypeName)
         where IsPassedOver(named.Holder, named.Name)
         select $"{defined.Definition}: {defined.Element.ElementId} gives {named}").ShouldBeEmpty();

    [Fact]
    public void Definitions_Discriminators_TellSlicesApartByNoPassedOverValue() =>
        (from defined in DefinedElements.All
         from discriminator in defined.Element.Slicing?.Discriminator ?? []
         where discriminator.Type != ElementDefinition.DiscriminatorType.Type && discriminator.Path!.Split('.').Any(Names.Contains)
         select $"{defined.Definition}: {defined.Element.ElementId} by {discriminator.Path}").ShouldBeEmpty();

    [Fact]
    public void Definitions_RulesThatReadPassedOverValues_AreThoseReviewed()
    {
        var rules = DefinedElements.All.SelectMany(defined => defined.Element.Constraint)
            .Concat(DefinedElements.Roots.SelectMany(root => root.Constraint))
            .Where(rule => Words().Matches(Literals().Replace(rule.Expression ?? string.Empty, string.Empty)).Any(word => Names.Contains(word.Value) || ReadAnything.Contains(word.Value)))
            .Select(rule => $"{rule.Key} {Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(rule.Expression!)))[..8]}")
            .ToHashSet(StringComparer.Ordinal);

        rules.Order().ShouldBe(Reviewed.Keys.Order());
    }

    // Decimals are remembered by their relation to these numbers alone.
    [Fact]
    public void Definitions_NumbersThatRulesCompareDecimalsWith_AreZeroAndTwo()
    {
        string[] decimals = ["hfb-5", "hfb-9", "hfb-13", "hfb-16"];
        var numbers = DefinedElements.Roots.Concat(DefinedElements.All.Select(defined => defined.Element)).SelectMany(element => element.Constraint)
            .Where(rule => decimals.Contains(rule.Key)).SelectMany(rule => Numbers().Matches(Literals().Replace(rule.Expression!, string.Empty)).Select(number => number.Value));

        numbers.ToHashSet().ShouldBe(["0", "2"], ignoreOrder: true);
    }

    private static bool IsPassedOver(string holder, string name) =>
        (holder, name) is (Answer, "value") or ("Reference", "reference") || PassedOver.Places.Contains((holder, name));

    private static IEnumerable<(string Holder, string Name)> Named(Base given, string holder) =>
        from member in given.EnumerateElements()
        from value in member.Value is System.Collections.IEnumerable list and not string ? list.OfType<Base>() : [(Base)member.Value]
        from named in value is PrimitiveType ? [(holder, member.Key)] : Named(value, PassedOver.HolderOf(value, holder, member.Key))
        select named;

    [GeneratedRegex("'[^']*'")]
    private static partial Regex Literals();

    [GeneratedRegex(@"\$?[A-Za-z]+")]
    private static partial Regex Words();

    [GeneratedRegex(@"[0-9]+(\.[0-9]+)?")]
    private static partial Regex Numbers();
}
