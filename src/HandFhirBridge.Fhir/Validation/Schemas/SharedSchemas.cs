using System.Collections.Concurrent;
using Firely.Fhir.Validation;
using Firely.Fhir.Validation.Compilation;
using HandFhirBridge.Fhir.Profiles;
using HandFhirBridge.Fhir.Validation.Terminology;
using Hl7.Fhir.Model;
using Canonical = Firely.Fhir.Validation.Canonical;

namespace HandFhirBridge.Fhir.Validation.Schemas;

/// <summary>
/// The compiled schemas, made once and shared by all threads. A schema that is missing is compiled behind a lock:
/// compiling corrects definitions in place, and two threads doing so at once have been seen to refuse valid bundles.
/// </summary>
#pragma warning disable ExperimentalApi // Rewriting compiled schemas is the library's own extension point: see ADR 0402.
internal sealed class SharedSchemas(DefinitionSource definitions, ClosedValueSets valueSets) : IElementSchemaResolver
{
    private readonly Lock _compiling = new();
    private readonly ConcurrentDictionary<Canonical, ElementSchema?> _schemas = new();
    private readonly IElementSchemaResolver _compiler = StructureDefinitionToElementSchemaResolver.Create(definitions);

    /// <inheritdoc/>
    public ElementSchema? GetSchema(Canonical schemaUri)
    {
        if (_schemas.TryGetValue(schemaUri, out var known))
        {
            return known;
        }

        lock (_compiling)
        {
            return _schemas.GetOrAdd(schemaUri, Compile);
        }
    }

    private ElementSchema? Compile(Canonical schemaUri)
    {
        var isHeadOnly = definitions.Find(schemaUri.ToString()) is StructureDefinition { Snapshot: null };
        return isHeadOnly || _compiler.GetSchema(schemaUri) is not { } schema ? null : (ElementSchema)Rewrite(schema);
    }

    private IAssertion Rewrite(IAssertion assertion) => assertion switch
    {
        BindingValidator binding => new ClosedBinding(binding, valueSets.Find(binding.ValueSetUri.ToString())),
        ReferencedInstanceValidator { TargetCases: { } cases } reference when cases.All(target => target.Type != "Resource") =>
            new DeclaredReference(reference),
        SliceValidator slicing => new SliceValidator(slicing.Ordered, slicing.DefaultAtEnd, Rewrite(slicing.Default), slicing.Slices.Select(Rewrite), slicing.MultiCase),
        IAssertionContainer container => container.WithChildren((_, child) => Rewrite(child)),
        _ => assertion,
    };

    private SliceValidator.SliceCase Rewrite(SliceValidator.SliceCase slice) =>
        new(slice.Name, Discriminator(slice.Condition), Rewrite(slice.Assertion), slice.Required);

    // Nothing but the way of a path is changed in a discriminator, or an element might land in another slice.
    private static IAssertion Discriminator(IAssertion condition) => condition switch
    {
        PathSelectorValidator path => DirectPath.Of(path),
        IAssertionContainer container => container.WithChildren((_, child) => Discriminator(child)),
        _ => condition,
    };
}
