using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Search;

/// <summary>
/// A path whose values are kept for search, once for all parameters that name it: what <c>combo-code</c> finds in an Observation,
/// <c>code</c> and <c>component-code</c> have found already.
/// </summary>
/// <param name="Type">Kind of the parameters.</param>
/// <param name="Path">Where the values are.</param>
/// <param name="Key">Names it in the index.</param>
internal sealed record IndexPath(SearchParamType Type, PathAlternative Path, long Key)
{
    /// <summary>The same everywhere and in every run; the tests make sure that no two paths of the specification have the same.</summary>
    /// <param name="resourceType">Type that is searched.</param>
    /// <param name="type">Kind of the parameter.</param>
    /// <param name="path">Path from the resource, or from <paramref name="element"/>.</param>
    /// <param name="element">For a part of a composite: path of the element it stands on.</param>
    public static IndexPath Of(string resourceType, SearchParamType type, PathAlternative path, PathAlternative? element = null)
    {
        var text = $"{resourceType} {type} {element?.Expression} {path.Expression}";
        // 31 bits: SQLite keeps them in four bytes.
        return new(type, path, BinaryPrimitives.ReadInt32LittleEndian(SHA256.HashData(Encoding.UTF8.GetBytes(text))) & int.MaxValue);
    }
}
