using System.Globalization;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Reads single elements; what is missing or not understood is noted and gives null.</summary>
internal static class Elements
{
    /// <summary>The one code of <paramref name="system"/> in a concept.</summary>
    public static string? Code(CodeableConcept? concept, string system, Place place)
    {
        if (concept is null)
        {
            place.Missing();
            return null;
        }

        var codes = concept.Coding.Where(c => c.System == system).Select(c => c.Code).ToList();
        if (codes is [{ } code])
        {
            return code;
        }

        place.At("coding").NotUnderstood(Shown(concept), $"one code of {system}");
        return null;
    }

    /// <summary>A member written as a code of <paramref name="system"/>.</summary>
    public static T? Member<T>(CodeableConcept? concept, string system, Place place)
        where T : struct, Enum => Code(concept, system, place) is { } code ? Member<T>(code, place) : null;

    public static T? Member<T>(string code, Place place)
        where T : struct, Enum
    {
        if (WireName.Find<T>(code) is { } member)
        {
            return member;
        }

        place.NotUnderstood(code, $"one of {string.Join(", ", WireName.All<T>())}");
        return null;
    }

    /// <summary>The number of a quantity in the UCUM unit <paramref name="unit"/>.</summary>
    public static decimal? Number(DataType? value, string unit, Place place)
    {
        if (value is Quantity { Value: { } number } quantity && quantity.System == CodeSystems.Ucum && quantity.Code == unit)
        {
            return number;
        }

        place.NotUnderstood(Shown(value), $"a quantity in the UCUM unit {unit}");
        return null;
    }

    /// <summary>A point in time with its offset.</summary>
    public static DateTimeOffset? Moment(DataType? value, Place place)
    {
        // Without an offset, parsing would take the one of this machine.
        if (value is FhirDateTime { Value: { Length: > 19 } text } && (text[^1] == 'Z' || text[^6] is '+' or '-')
            && DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.None, out var moment))
        {
            return moment;
        }

        place.NotUnderstood(Shown(value), "a date and time with offset");
        return null;
    }

    /// <summary>The identifier of a logical reference.</summary>
    public static BusinessIdentifier? Logical(ResourceReference? reference, Place place)
    {
        if (reference?.Identifier is { System: { Length: > 0 } system, Value: { Length: > 0 } value })
        {
            return new(system, value);
        }

        place.At("identifier").Missing();
        return null;
    }

    /// <summary>Value of the one extension at <paramref name="url"/>; null, noted only if required, where there is none.</summary>
    public static T? Extension<T>(IExtendable element, string url, Place place, bool required = true)
        where T : DataType
    {
        var found = element.Extension.Where(e => e.Url == url).Select(e => e.Value).ToList();
        if (found is [T value])
        {
            return value;
        }

        if (found.Count > 0)
        {
            place.At($"extension('{url}')").NotUnderstood(string.Join(", ", found.Select(Shown)), $"one {typeof(T).Name}");
        }
        else if (required)
        {
            place.At($"extension('{url}')").Missing();
        }

        return null;
    }

    /// <summary>A value as it can be named in a problem.</summary>
    public static string? Shown(DataType? value) => value switch
    {
        null => null,
        CodeableConcept concept => string.Join(", ", concept.Coding.Select(c => $"{c.System}|{c.Code}")),
        Coding coding => $"{coding.System}|{coding.Code}",
        Quantity quantity => string.Create(CultureInfo.InvariantCulture, $"{quantity.Value} {quantity.Code}"),
        PrimitiveType primitive => primitive.ToString(),
        _ => value.TypeName,
    };
}
