namespace HandFhirBridge.Fhir.Profiles;

/// <summary>One file of the profile package, as it is packed and as it was generated.</summary>
/// <param name="Path">Path inside the package's <c>package</c> folder, with forward slashes, such as <c>example/Device-example-kit.json</c>.</param>
/// <param name="Content">UTF-8 JSON; never changed after generation.</param>
public sealed record PackageFile(string Path, ReadOnlyMemory<byte> Content);
