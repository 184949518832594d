using HandFhirBridge.Record.Search;
using Hl7.Fhir.Introspection;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Record.Tests;

/// <summary>Paths walked without the FHIRPath engine find what the engine (of the FHIR SDK) finds.</summary>
public sealed class PlainPathTests
{
    private static readonly FhirJsonDeserializer Deserializer = new(new DeserializerSettings().UsingMode(DeserializationMode.Recoverable));

    private static readonly string?[] References = ["Patient/p", "Group/g", "https://elsewhere.example/fhir/Patient/p/_history/2", "urn:uuid:7", "#inside", null];

    // Every path of every search parameter of R4 that is walked, on resources made so that each step of it finds something: every type of a
    // choice, and references of several kinds.
    [Fact]
    public void Walk_OfEveryPathOfTheSpecification_FindsWhatTheEngineFinds()
    {
        var (compared, found) = (0, 0);
        foreach (var type in ModelInfo.SupportedResources)
        {
            foreach (var parameter in SearchParameters.Of(type).Values)
            {
                foreach (var alternative in parameter.Alternatives.Where(a => a.Plain is not null))
                {
                    foreach (var root in Roots(ModelInfo.GetTypeForFhirType(type)!, alternative.Plain!.Names))
                    {
                        found += Compare(alternative, root, $"{parameter.ResourceType}.{parameter.Name}: {alternative.Expression}");
                        compared++;
                        foreach (var part in parameter.Components.SelectMany(c => c.Alternatives).Where(a => a.Plain is not null))
                        {
                            foreach (var element in alternative.Evaluate(root).SelectMany(e => Roots(e.GetType(), part.Plain!.Names)))
                            {
                                found += Compare(part, element, $"{parameter.ResourceType}.{parameter.Name}: {part.Expression}");
                            }
                        }
                    }
                }
            }
        }

        compared.ShouldBeGreaterThan(2000);
        found.ShouldBeGreaterThan(2000);
    }

    // Published examples of R4 (FHIR/fhir-test-cases): see Data/SOURCES.md.
    [Fact]
    public void Find_InPublishedExamples_IsWhatTheEngineFinds()
    {
        foreach (var file in Directory.EnumerateFiles(Path.Combine(AppContext.BaseDirectory, "Data"), "*.json"))
        {
            Deserializer.TryDeserializeResource(File.ReadAllText(file), out var resource, out _);
            foreach (var parameter in SearchParameters.Of(resource!.TypeName).Values)
            {
                foreach (var alternative in parameter.Alternatives.Where(a => a.Plain is not null))
                {
                    Compare(alternative, resource, $"{Path.GetFileName(file)}, {parameter.ResourceType}.{parameter.Name}: {alternative.Expression}");
                }
            }
        }
    }

    private static int Compare(PathAlternative alternative, Base root, string what)
    {
        var expected = alternative.Evaluate(root).ToList();
        var actual = alternative.Find(root).ToList();
        actual.Count.ShouldBe(expected.Count, what);
        actual.Zip(expected).ShouldAllBe(pair => ReferenceEquals(pair.First, pair.Second), what);
        return expected.Count;
    }

    private static IEnumerable<Base> Roots(Type type, IReadOnlyList<string> names)
    {
        if (names.Count == 0)
        {
            return type == typeof(ResourceReference) ? References.Select(r => new ResourceReference { Reference = r }) : [Made(type)];
        }

        var property = ModelInfo.ModelInspector.FindOrImportClassMapping(type)?.FindMappedElementByName(names[0]);
        return property is null ? [Made(type)] : Types(property).SelectMany(t => Roots(t, [.. names.Skip(1)])).Select(child =>
        {
            var parent = Made(type);
            object value = child;
            if (property.IsCollection)
            {
                var list = (System.Collections.IList)Activator.CreateInstance(typeof(List<>).MakeGenericType(property.ImplementingType))!;
                list.Add(child);
                value = list;
            }

            property.NativeProperty!.SetValue(parent, value);
            return parent;
        });
    }

    private static IEnumerable<Type> Types(PropertyMapping property)
    {
        IEnumerable<Type> types = property.Choice == ChoiceType.DatatypeChoice
            ? property.FhirType.SelectMany(t => t.IsAbstract ? [typeof(Quantity), typeof(FhirString), typeof(ResourceReference), typeof(Age)] : new[] { t })
            : [property.ImplementingType];
        return types.Where(t => !t.IsAbstract && typeof(Base).IsAssignableFrom(t));
    }

    private static Base Made(Type type)
    {
        var made = (Base)Activator.CreateInstance(type)!;
        switch (made)
        {
            case PrimitiveType primitive:
                primitive.JsonValue = "x";
                break;
            case Element element:
                element.ElementId = "e";
                break;
        }

        return made;
    }
}
