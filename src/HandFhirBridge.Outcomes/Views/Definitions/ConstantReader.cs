using System.Globalization;
using System.Text.Json;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Outcomes.Views.Definitions;

/// <summary>Reads a constant: its name and the one <c>value[x]</c> it has.</summary>
internal static class ConstantReader
{
    private const string Prefix = "value";

    public static ViewConstant Read(ViewElement element)
    {
        var name = element.Required("name").Text();
        var values = element.Json.EnumerateObject().Where(p => p.Name.StartsWith(Prefix, StringComparison.Ordinal)).ToList();
        if (values is not [var value])
        {
            throw element.Missing("value[x]");
        }

        var at = new ViewElement(value.Value, $"{element.Location}.{value.Name}");
        var type = char.ToLowerInvariant(value.Name[Prefix.Length]) + value.Name[(Prefix.Length + 1)..];
        return new(name, Primitive(type, at));
    }

    private static PrimitiveType Primitive(string type, ViewElement at)
    {
        if (ModelInfo.GetTypeForFhirType(type) is not { } fhirType || !typeof(PrimitiveType).IsAssignableFrom(fhirType))
        {
            throw at.Wrong("a primitive type of FHIR");
        }

        switch (at.Json.ValueKind)
        {
            case JsonValueKind.True or JsonValueKind.False when fhirType == typeof(FhirBoolean):
                return new FhirBoolean(at.Json.GetBoolean());
            case JsonValueKind.Number when fhirType == typeof(FhirDecimal) && at.Json.TryGetDecimal(out var number):
                return new FhirDecimal(number);
            case JsonValueKind.Number when at.Json.TryGetInt32(out var whole) && Activator.CreateInstance(fhirType) is Integer or UnsignedInt or PositiveInt:
                return fhirType == typeof(Integer) ? new Integer(whole) : fhirType == typeof(PositiveInt) ? new PositiveInt(whole) : new UnsignedInt(whole);
            case JsonValueKind.String when type == "integer64" && long.TryParse(at.Text(), CultureInfo.InvariantCulture, out var large):
                return new Integer64(large);
            case JsonValueKind.String when type == "instant" && DateTimeOffset.TryParse(at.Text(), CultureInfo.InvariantCulture, out var moment):
                return new Instant(moment);
            case JsonValueKind.String when Activator.CreateInstance(fhirType) is IValue<string> and PrimitiveType text:
                text.JsonValue = at.Text();
                return text;
            default:
                throw at.Wrong($"a value of type {type}");
        }
    }
}
