using System.Globalization;
using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Interactions;
using HandFhirBridge.Record.Search;

namespace HandFhirBridge.Record.Export;

/// <summary>Reads the parameters of a kick-off (FHIR Bulk Data Access 2.0, "Query Parameters"). What is not understood is refused, or left out where the client is lenient.</summary>
/// <param name="order">What was asked for without them.</param>
/// <param name="lenient">True where the client sent <c>Prefer: handling=lenient</c>.</param>
/// <param name="byPost">True where a Parameters resource was posted.</param>
internal sealed class ExportParameters(ExportOrder order, bool lenient, bool byPost)
{
    private static readonly string[] Formats = ["application/fhir+ndjson", "application/ndjson", "ndjson"];

    private readonly List<string> types = [];
    private readonly List<string> patients = [];
    private readonly List<string> leftOut = [];
    private DateTimeOffset? since;

    /// <exception cref="RecordRefusal">400 for what is not understood.</exception>
    public ExportOrder Read(IEnumerable<KeyValuePair<string, string>> parameters)
    {
        foreach (var (name, value) in parameters)
        {
            Read(name, value);
        }

        return leftOut.Count > 0 && types.Count == 0 && leftOut.Exists(l => l.StartsWith("_type", StringComparison.Ordinal))
            ? throw RecordRefusal.BadRequest($"{leftOut[0]} No type is left to export.")
            : order with { Types = [.. types.Distinct()], Since = since, Patients = [.. patients.Distinct()], LeftOut = leftOut };
    }

    private void Read(string name, string value)
    {
        switch (name)
        {
            case "_outputFormat":
                // A plus sign that was not escaped reads as a space.
                Demand(Formats.Contains(value.Replace(' ', '+')), $"_outputFormat is \"{value}\"; this server writes {Formats[0]} only.");
                break;
            case "_since":
                since = Instant(value);
                break;
            case "_type":
                foreach (var type in value.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
                {
                    if (Demand(ResourceTypes.Has(type), $"_type names \"{type}\", which is not a resource type of FHIR R4."))
                    {
                        types.Add(type);
                    }
                }

                break;
            case "patient":
                patients.Add(Patient(value));
                break;
            case "_format" or "_pretty":
                break;
            default:
                Demand(false, $"$export does not know the parameter \"{name}\"; it takes _outputFormat, _since, _type and, posted for patients or a group, patient.");
                break;
        }
    }

    // Left out where the client is lenient; what would widen the export is refused in any case.
    private bool Demand(bool holds, string fault)
    {
        if (!holds)
        {
            leftOut.Add(lenient ? fault : throw RecordRefusal.BadRequest(fault + " With Prefer: handling=lenient it is left out."));
        }

        return holds;
    }

    private static DateTimeOffset Instant(string value) => Hl7.Fhir.Model.Instant.IsValidValue(value)
        ? DateTimeOffset.Parse(value, CultureInfo.InvariantCulture)
        : throw RecordRefusal.BadRequest($"_since is \"{value}\", which is not an instant of FHIR, such as 2026-03-01T08:00:00Z. In an address, + is written %2B.");

    private string Patient(string value)
    {
        if (!byPost || order.Level == ExportLevel.System)
        {
            throw RecordRefusal.BadRequest("patient is taken in a Parameters resource posted to Patient/$export or Group/[id]/$export, and nowhere else.");
        }

        var reference = ReferenceText.Relative(value, order.BaseUrl);
        return reference.Split('/') is ["Patient", { Length: > 0 }]
            ? reference
            : throw RecordRefusal.BadRequest($"patient is \"{value}\", which is not a reference to a patient of this server, such as Patient/123.");
    }
}
