using System.Security.Cryptography;
using System.Text;
using Firely.Fhir.Validation;
using Firely.Fhir.Validation.Compilation;
using HandFhirBridge.Fhir.Profiles;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Remembered;

/// <summary>
/// Shapes that come with the program, so that a command that checks one ordinary session need not compile a schema first.
/// They count only with the very definitions and libraries they were found clean with; a test makes them anew. See ADR 0405.
/// </summary>
#pragma warning disable ExperimentalApi // Named only to ask which build of the library it is of.
internal static class ShippedShapes
{
    /// <summary>Adds the shapes to those remembered; none if they were made with other definitions or another library.</summary>
    internal static CleanShapes Load(CleanShapes clean) => Load(clean, EmbeddedDefinitions.ReadShapes());

    internal static CleanShapes Load(CleanShapes clean, ReadOnlySpan<byte> shapes)
    {
        if (shapes.Length < SHA256.HashSizeInBytes || !shapes[..SHA256.HashSizeInBytes].SequenceEqual(MadeWith()))
        {
            return clean;
        }

        for (var at = SHA256.HashSizeInBytes; at < shapes.Length; at += ShapeKey.Length)
        {
            clean.Add(ShapeKey.Read(shapes.Slice(at, ShapeKey.Length)));
        }

        return clean;
    }

    /// <summary>The file that is shipped.</summary>
    internal static byte[] Write(IEnumerable<ShapeKey> shapes) => [.. MadeWith(), .. shapes.OrderBy(shape => shape.First).SelectMany(shape => shape.ToBytes())];

    /// <summary>Digest of everything but this project's code that a verdict depends on.</summary>
    private static byte[] MadeWith()
    {
        using var digest = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var path in EmbeddedDefinitions.PackagePaths().Where(path => !path.Contains('/', StringComparison.Ordinal)))
        {
            digest.AppendData(Encoding.UTF8.GetBytes(path + '\n'));
            digest.AppendData(EmbeddedDefinitions.ReadPackageFile(path));
        }

        using var core = EmbeddedDefinitions.OpenCore();
        digest.AppendData(SHA256.HashData(core));
        foreach (var library in new[] { typeof(Validator), typeof(SliceValidator), typeof(StructureDefinitionToElementSchemaResolver), typeof(Base), typeof(Observation) })
        {
            digest.AppendData(library.Module.ModuleVersionId.ToByteArray());
        }

        return digest.GetHashAndReset();
    }
}
