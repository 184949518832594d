using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Fhir.Profiles;
using HandFhirBridge.Fhir.Validation.Questionnaires;
using HandFhirBridge.Fhir.Validation.Remembered;
using HandFhirBridge.Fhir.Validation.Rules;
using HandFhirBridge.Fhir.Validation.Terminology;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation;

/// <summary>
/// Checks what a session becomes before anything of it is queued: base FHIR R4 and this project's profiles by the FHIR
/// validator, and by rules of its own what that validator lets pass. Needs no network and no files. Safe for all threads.
/// </summary>
public sealed class SessionValidator
{
    private static readonly Lazy<SessionValidator> Instance = new(() => new SessionValidator());

    private readonly LibraryValidator _library;
    private readonly RememberedVerdicts _remembered;
    private readonly ReferenceAddressRule _addresses = new();
    private readonly ImmutableArray<IResourceRule> _rules;
    private readonly QuestionnaireRule _answers;

    internal SessionValidator()
        : this(ShippedShapes.Load(new CleanShapes()))
    {
    }

    /// <param name="clean">What it remembers from before.</param>
    internal SessionValidator(CleanShapes clean)
    {
        var definitions = new DefinitionSource();
        var valueSets = new ClosedValueSets(definitions);
        _library = new LibraryValidator(definitions, valueSets);
        _remembered = new RememberedVerdicts(_library, clean);
        _answers = new QuestionnaireRule(definitions, valueSets);
        _rules = [new PrimitiveRule(), new EntryRule(), new BundleReferenceRule(), new UnitRule(), _answers];
    }

    /// <summary>The one validator of the process; what it compiles is kept for all. Its first verdict takes longest.</summary>
    public static SessionValidator Shared => Instance.Value;

    /// <summary>The shared validator, after it has given a first verdict on the package's own examples.</summary>
    /// <param name="cancellationToken">Stops waiting; the warming goes on.</param>
    public static async Task<SessionValidator> CreateAsync(CancellationToken cancellationToken = default)
    {
        await System.Threading.Tasks.Task.Run(Shared.WarmUp, cancellationToken).WaitAsync(cancellationToken).ConfigureAwait(false);
        return Shared;
    }

    /// <summary>Gives a verdict on each example of the package, so that later ones need not wait for compilation.</summary>
    /// <exception cref="InvalidOperationException">An example is refused: program and package do not belong together.</exception>
    public void WarmUp()
    {
        foreach (var example in Examples)
        {
            Demand(example);
        }
    }

    /// <summary>
    /// The part of <see cref="WarmUp"/> that every verdict waits for: the validator is made and has given one. Sessions of a shape that came
    /// with the program then have theirs at once; the first of another shape waits for the rest.
    /// </summary>
    /// <exception cref="InvalidOperationException">An example is refused: program and package do not belong together.</exception>
    public void WarmUpFirst() => Demand(Examples.First());

    /// <summary>Checks the resources of a session.</summary>
    /// <param name="bundle">As the mapper makes it: each entry claims a profile of this project.</param>
    /// <returns>What was found, in the order of the entries; without an error among it the bundle may be sent.</returns>
    public ImmutableArray<Problem> Validate(Bundle bundle) => Validate((Resource)bundle);

    /// <summary>Checks one resource, or a bundle, against the profiles it claims.</summary>
    /// <param name="resource">A resource of one of the types a session is made of.</param>
    public ImmutableArray<Problem> Validate(Resource resource)
    {
        ArgumentNullException.ThrowIfNull(resource);
        return Run(resource, _remembered.Validate);
    }

    /// <summary>The same verdict with nothing from memory; what is compared with, and what warms.</summary>
    internal ImmutableArray<Problem> ValidateFully(Resource resource) => Run(resource, _library.Validate);

    /// <summary>Checks a resource as it stands in a file, elements that FHIR does not know included.</summary>
    /// <param name="utf8Json">FHIR JSON in UTF-8.</param>
    public ImmutableArray<Problem> ValidateJson(ReadOnlyMemory<byte> utf8Json) => ValidateJson(utf8Json, Validate);

    /// <summary>Checks the answers of a response, made by anyone, against the questionnaire of the package that it names, and nothing else of it.</summary>
    /// <param name="response">Names its questionnaire with version, or without.</param>
    public ImmutableArray<Problem> CheckAnswers(QuestionnaireResponse response)
    {
        ArgumentNullException.ThrowIfNull(response);
        return Distinct(_answers.Check(response, new Finding(response)));
    }

    private static IEnumerable<string> Examples => ProfilePackage.Paths.Where(path => path.StartsWith("example/", StringComparison.Ordinal));

    private void Demand(string example)
    {
        if (ValidateJson(ProfilePackage.Read(example), ValidateFully).FirstOrDefault(problem => problem.Severity == Severity.Error) is { } error)
        {
            throw new InvalidOperationException($"The package's own {example} is refused: {error}");
        }
    }

    private static ImmutableArray<Problem> ValidateJson(ReadOnlyMemory<byte> utf8Json, Func<Resource, ImmutableArray<Problem>> validate)
    {
        var read = StrictReader.Read(utf8Json.Span);
        return read.Value is null ? read.Problems : Distinct([.. read.Problems, .. validate(read.Value)]);
    }

    private ImmutableArray<Problem> Run(Resource resource, Func<Resource, IReadOnlyList<OperationOutcome.IssueComponent>> validator)
    {
        var finding = new Finding(resource);
        var unreadable = _addresses.Check(resource, finding).ToList();
        var found = unreadable.Count > 0 ? unreadable : validator(resource).Select(issue => ToProblem(issue, finding, resource));
        return Distinct([.. found, .. _rules.SelectMany(rule => rule.Check(resource, finding))]);
    }

    private static Problem ToProblem(OperationOutcome.IssueComponent issue, Finding finding, Resource root)
    {
        var (kind, severity) = IssueTranslation.KindOf(issue);
        return finding.At(kind, IssueLocation.Of(issue, root), issue.Details?.Text ?? kind.Title, severity);
    }

    // The parser, the checks of plain values and the validator may see the same fault; the first to name it is enough.
    private static ImmutableArray<Problem> Distinct(IEnumerable<Problem> problems) =>
        [.. problems.DistinctBy(problem => (problem.Kind, problem.Location, problem.Kind.IssueType == "invariant" ? problem.Message : null))];
}
