using System.Collections.Frozen;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Remembered;

/// <summary>
/// The values of which a verdict depends on a class alone. Every value that is not listed here is part of a shape word for
/// word. A test holds the list against every rule, binding, fixed value, limit and discriminator of the definitions in hand.
/// </summary>
internal static class PassedOver
{
    /// <summary>Where a coding is that answers a question: the questionnaire is held against it by a rule of its own, every time.</summary>
    internal const string AnsweredCoding = "QuestionnaireResponse.item.answer.value";

    /// <summary>Where a tag is. Labels of security, which rules look at, stand elsewhere.</summary>
    internal const string Tag = "Meta.tag";

    private const string Answer = "QuestionnaireResponse.item.answer";

    private static readonly FrozenDictionary<(string Holder, string Element), LeafKind> ByPlace = new Dictionary<(string, string), LeafKind>
    {
        // Nothing looks into an id or a business identifier; hfb-15 asks only that there is one.
        [("Observation", "id")] = LeafKind.Id,
        [("DiagnosticReport", "id")] = LeafKind.Id,
        [("QuestionnaireResponse", "id")] = LeafKind.Id,
        [("Provenance", "id")] = LeafKind.Id,
        [("Device", "id")] = LeafKind.Id,
        [("Identifier", "value")] = LeafKind.Words,

        // hfb-21 looks for a digest in Reference.display, hfb-12 and hfb-20 for a word in the texts of a range and a conclusion.
        [("Reference", "display")] = LeafKind.Words,
        [("Observation.referenceRange", "text")] = LeafKind.Words,
        [("DiagnosticReport", "conclusion")] = LeafKind.Words,
        [("Annotation", "text")] = LeafKind.Words,
        [("Device.deviceName", "name")] = LeafKind.Words,
        [("Device", "serialNumber")] = LeafKind.Words,
        [("Device.version", "value")] = LeafKind.Words,
        [("Attachment", "title")] = LeafKind.Words,

        // An extensible binding asks that a concept without code has text.
        [("CodeableConcept", "text")] = LeafKind.Words,

        // txt-1 and txt-2: the form of the markup.
        [("Narrative", "div")] = LeafKind.Markup,

        // hfb-5, hfb-9 and hfb-16 compare with 0 and 2; hfb-13 and rng-2 compare the ends of a range, which a shape holds beside them.
        [("Quantity", "value")] = LeafKind.Decimal,

        // hfb-18 asks for a time of day; per-1 compares the ends of a period, which a shape holds beside them.
        [("Observation", "effective")] = LeafKind.Moment,
        [("Observation", "issued")] = LeafKind.Moment,
        [("DiagnosticReport", "issued")] = LeafKind.Moment,
        [("Period", "start")] = LeafKind.End,
        [("Period", "end")] = LeafKind.End,
        [("Provenance", "recorded")] = LeafKind.Moment,
        [("QuestionnaireResponse", "authored")] = LeafKind.Moment,
        [("Attachment", "creation")] = LeafKind.Moment,

        // att-1 asks that there are data.
        [("Attachment", "data")] = LeafKind.Data,
        [("Attachment", "hash")] = LeafKind.Data,
        [("Attachment", "size")] = LeafKind.Count,

        // hfb-24 asks that mean and standard deviation are there.
        [(Extensions.RunOrder, "value")] = LeafKind.Count,
        [("mean", "value")] = LeafKind.Decimal,
        [("standardDeviation", "value")] = LeafKind.Decimal,
        [("sampleSize", "value")] = LeafKind.Count,

        [(AnsweredCoding, "system")] = LeafKind.System,
        [(AnsweredCoding, "code")] = LeafKind.Token,
        [(AnsweredCoding, "display")] = LeafKind.Words,

        // No rule looks at a tag.
        [(Tag, "code")] = LeafKind.Token,

        // bdl-7 and bdl-8: each entry has another address, which a shape makes sure of.
        [("Bundle.entry", "fullUrl")] = LeafKind.Address,
        [("Bundle.entry.request", "url")] = LeafKind.TypeAndId,
    }.ToFrozenDictionary();

    /// <summary>Every listed place.</summary>
    internal static IEnumerable<(string Holder, string Element)> Places => ByPlace.Keys;

    /// <summary>The class a value is remembered by; null if it is remembered word for word.</summary>
    /// <param name="holder">What <see cref="HolderOf"/> said of the element that has the value.</param>
    /// <param name="element">Name of the value in it.</param>
    /// <param name="value">The value.</param>
    internal static LeafKind? KindOf(string holder, string element, PrimitiveType value)
    {
        if (holder == Answer && element == "value")
        {
            return OfAnswer(value);
        }

        return ByPlace.TryGetValue((holder, element), out var kind) ? kind : null;
    }

    /// <summary>What an element is called here: its type; an extension by its address; a coding that answers a question or is a tag apart.</summary>
    internal static string HolderOf(Base element, string outer, string name) => element switch
    {
        Extension { UrlElement.JsonValue: string url } => url,
        Coding when outer == Answer => AnsweredCoding,
        Coding when outer == "Meta" && name == "tag" => Tag,
        _ => element.TypeName,
    };

    // hfb-16 compares a quantity with 0; no rule looks at an answer of another type.
    private static LeafKind? OfAnswer(PrimitiveType value) => value switch
    {
        FhirString => LeafKind.Words,
        Date => LeafKind.Day,
        FhirDateTime => LeafKind.Moment,
        _ => null,
    };
}
