using HandFhirBridge.Fhir.Mapping.Narratives;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Who tested, for which clinic, with which software, and from which document the resources were made.</summary>
internal static class ProvenanceMapper
{
    /// <summary>The provenance of <paramref name="resources"/>.</summary>
    /// <param name="context">The session.</param>
    /// <param name="resources">Everything else of the bundle.</param>
    /// <param name="documentSha256">SHA-256 of the session document, lower-case hexadecimal.</param>
    public static Provenance Map(SessionContext context, IEnumerable<Resource> resources, string documentSha256)
    {
        var meta = context.Meta(Canonicals.Provenance);
        // R4 gives Provenance no identifier: the tag is what it is searched by.
        meta.Tag.Add(new Coding(IdentifierSystems.Session, context.Keys.Session));
        // And by this one in its revision alone, so that a conditional create does not take the one of an earlier revision for it.
        meta.Tag.Add(new Coding(IdentifierSystems.Provenance, context.Keys.Provenance(context.Session.Revision)));
        return new()
        {
            Id = ResourceIds.Of(IdentifierSystems.Provenance, context.Keys.Provenance(context.Session.Revision)),
            Meta = meta,
            Text = ProvenanceNarrative.Of(context),
            Target = [.. resources.Select(resource => new ResourceReference(ResourceIds.Urn(resource.Id!)))],
            RecordedElement = new Instant(context.Issued),
            Activity = Concepts.Concept(context.IsCorrection
                ? new(CodeSystems.DataOperation, "UPDATE", "revise")
                : new(CodeSystems.DataOperation, "CREATE", "create")),
            Agent = [Author(context), Assembler(context)],
            Entity = [Source(context, documentSha256)],
        };
    }

    private static Provenance.AgentComponent Author(SessionContext context) => new()
    {
        Type = Concepts.Concept(new(CodeSystems.ParticipantType, "author", "Author")),
        Role = [Concepts.Concept(Concepts.Coded(CodeSystems.PerformerRole, context.Session.Performer.Role))],
        Who = People.Performer(context),
        OnBehalfOf = People.Clinic(context),
    };

    private static Provenance.AgentComponent Assembler(SessionContext context) => new()
    {
        Type = Concepts.Concept(new(CodeSystems.ParticipantType, "assembler", "Assembler")),
        Who = context.Software(),
        OnBehalfOf = People.Clinic(context),
    };

    private static Provenance.EntityComponent Source(SessionContext context, string documentSha256) => new()
    {
        Role = Provenance.ProvenanceEntityRole.Source,
        What = new()
        {
            Identifier = new Identifier(IdentifierSystems.Session, context.Keys.Session),
            Display = $"sha-256:{documentSha256}",
        },
    };
}
