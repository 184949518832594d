using System.IO.Compression;
using System.Text;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Profiles;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Hl7.Fhir.Specification.Source;
using Hl7.Fhir.Specification.Terminology;
using Task = System.Threading.Tasks.Task;

namespace HandFhirBridge.Fhir.Tests.Profiles;

/// <summary>
/// Makes the reduced core definitions out of the whole FHIR R4 specification as NuGet package
/// Hl7.Fhir.Specification.Data.R4 carries it (specification.zip, FHIR 4.0.1, CC0): everything that validating a session
/// can reach, and nothing else.
/// </summary>
internal sealed class CoreDefinitionsBuilder
{
    private const string CoreTypes = "http://hl7.org/fhir/StructureDefinition/";

    /// <summary>The resources a session is made of, the bundle they travel in, and the one extension of the core that our profiles name.</summary>
    private static readonly string[] Roots =
    [
        "Bundle", "Observation", "DiagnosticReport", "QuestionnaireResponse", "Provenance", "Device", "workflow-supportingInfo",
    ];

    private readonly ZipSource _specification = new(Path.Combine(AppContext.BaseDirectory, "specification.zip"));
    private readonly SortedDictionary<string, byte[]> _entries = new(StringComparer.Ordinal);
    private readonly Queue<string> _open = [];
    private readonly SortedSet<string> _targets = new(StringComparer.Ordinal);
    private readonly SortedSet<string> _valueSets = new(StringComparer.Ordinal);

    /// <summary>Value sets with a required binding that cannot be listed code by code, with the expander's reason.</summary>
    public SortedDictionary<string, string> NotListed { get; } = new(StringComparer.Ordinal);

    /// <summary>Entry name and content, in ordinal order.</summary>
    public async Task<IReadOnlyDictionary<string, byte[]>> BuildAsync()
    {
        foreach (var root in Roots)
        {
            _open.Enqueue(CoreTypes + root);
        }

        NoteOwnProfiles();
        while (_open.TryDequeue(out var canonical))
        {
            await AddStructureAsync(canonical);
        }

        foreach (var canonical in _valueSets)
        {
            await AddValueSetAsync(canonical);
        }

        foreach (var target in _targets.Where(target => !_entries.ContainsKey(target)))
        {
            await AddTargetAsync(target);
        }

        return _entries;
    }

    public static void Write(string path, IReadOnlyDictionary<string, byte[]> entries)
    {
        using var archive = new ZipArchive(File.Create(path), ZipArchiveMode.Create);
        foreach (var (canonical, content) in entries)
        {
            var entry = archive.CreateEntry(Uri.EscapeDataString(canonical), CompressionLevel.SmallestSize);
            entry.LastWriteTime = new DateTimeOffset(1985, 10, 26, 8, 15, 0, TimeSpan.Zero);
            using var stream = entry.Open();
            stream.Write(content);
        }
    }

    private void NoteOwnProfiles()
    {
        foreach (var path in ProfilePackage.Paths.Where(path => path.StartsWith("StructureDefinition-", StringComparison.Ordinal)))
        {
            var profile = FhirJsonDeserializer.RECOVERABLE.Deserialize<StructureDefinition>(Encoding.UTF8.GetString(ProfilePackage.Read(path).Span));
            NoteNeeds(profile);
        }
    }

    private async Task AddStructureAsync(string canonical)
    {
        if (_entries.ContainsKey(canonical) || !IsCore(canonical))
        {
            return;
        }

        var definition = await FindAsync<StructureDefinition>(canonical);
        _entries[canonical] = DefinitionFilter.Reduce(new FhirJsonSerializer().SerializeToBytes(definition));
        NoteNeeds(definition);
    }

    private void NoteNeeds(StructureDefinition definition)
    {
        if (definition.BaseDefinition is { } parent)
        {
            _open.Enqueue(parent);
        }

        foreach (var element in definition.Snapshot!.Element)
        {
            NoteTypes(element);
            if (element.Binding is { Strength: BindingStrength.Required, ValueSet: { } valueSet } && IsCore(valueSet))
            {
                _valueSets.Add(valueSet.Split('|')[0]);
            }
        }
    }

    private void NoteTypes(ElementDefinition element)
    {
        foreach (var type in element.Type)
        {
            if (!type.Code!.Contains("://", StringComparison.Ordinal))
            {
                _open.Enqueue(CoreTypes + type.Code);
            }

            type.Profile.OfType<string>().ToList().ForEach(_open.Enqueue);
            _targets.UnionWith(type.TargetProfile.OfType<string>().Where(IsCore));
        }
    }

    /// <summary>A type that is only pointed at: the compiler needs its name, nobody its elements.</summary>
    private async Task AddTargetAsync(string canonical)
    {
        var definition = await FindAsync<StructureDefinition>(canonical);
        var stub = new StructureDefinition
        {
            Url = definition.Url,
            Version = definition.Version,
            Status = definition.Status,
            Kind = definition.Kind,
            Abstract = definition.Abstract,
            Type = definition.Type,
            BaseDefinition = definition.BaseDefinition,
            Derivation = definition.Derivation,
        };
        _entries[canonical] = new FhirJsonSerializer().SerializeToBytes(stub);
    }

    private async Task AddValueSetAsync(string canonical)
    {
        var definition = await FindAsync<ValueSet>(canonical);
        try
        {
            var expander = new ValueSetExpander(new ValueSetExpanderSettings { ValueSetSource = _specification, MaxExpansionSize = 5000 });
            await expander.ExpandAsync(definition);
        }
        catch (Exception problem) when (problem is TerminologyServiceException)
        {
            NotListed[canonical] = problem.Message;
            return;
        }

        _entries[canonical] = new FhirJsonSerializer().SerializeToBytes(Listed(definition));
    }

    private static ValueSet Listed(ValueSet expanded) => new()
    {
        Url = expanded.Url,
        Version = expanded.Version,
        Status = expanded.Status,
        Compose = new ValueSet.ComposeComponent
        {
            Include =
            [
                .. Flat(expanded.Expansion!.Contains).GroupBy(concept => concept.System).OrderBy(group => group.Key, StringComparer.Ordinal)
                    .Select(group => new ValueSet.ConceptSetComponent { System = group.Key, Concept = [.. group.Select(Concept)] }),
            ],
        },
    };

    private static ValueSet.ConceptReferenceComponent Concept(ValueSet.ContainsComponent concept) =>
        new() { Code = concept.Code, Display = concept.Display };

    private static IEnumerable<ValueSet.ContainsComponent> Flat(IEnumerable<ValueSet.ContainsComponent> concepts) =>
        concepts.SelectMany(concept => Flat(concept.Contains).Prepend(concept)).Where(concept => concept.Code is not null);

    private async Task<T> FindAsync<T>(string canonical)
        where T : Resource =>
        await _specification.ResolveByCanonicalUriAsync(canonical) as T
        ?? throw new InvalidOperationException($"The specification has no {typeof(T).Name} {canonical}.");

    private static bool IsCore(string canonical) => !canonical.StartsWith(Canonicals.Base, StringComparison.Ordinal);
}
