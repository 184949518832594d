using System.Text.RegularExpressions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Search;

/// <summary>
/// A FHIRPath that only walks down elements, perhaps to one type of a choice or to references of one type: most of the specification's
/// search paths do no more. Walked here it finds what the FHIRPath engine finds (the tests ask both for every such path of the
/// specification) in a fraction of the time.
/// </summary>
internal sealed partial class PlainPath
{
    private readonly string? type;
    private readonly string[] names;
    private readonly string? choice;
    private readonly Type? choiceType;
    private readonly string? target;

    private PlainPath(string? type, string[] names, string? choice, string? target)
    {
        (this.type, this.names, this.choice, this.target) = (type, names, choice, target);
        choiceType = choice is null ? null : ModelInfo.GetTypeForFhirType(choice);
    }

    /// <summary>Elements it goes down, in order.</summary>
    public IReadOnlyList<string> Names => names;

    /// <summary>The path, where it is so plain; null for any other.</summary>
    public static PlainPath? Of(string expression)
    {
        var form = Form().Match(expression);
        if (!form.Success || form.Groups["open"].Success != form.Groups["close"].Success)
        {
            return null;
        }

        var (choice, target) = (form.Groups["choice"], form.Groups["target"]);
        // A choice of a type that the SDK does not know by this name is for the engine to judge.
        return choice.Success && ModelInfo.GetTypeForFhirType(choice.Value) is null
            ? null
            : new(form.Groups["type"] is { Success: true } type ? type.Value : null, [.. form.Groups["name"].Captures.Select(c => c.Value)], choice.Success ? choice.Value : null, target.Success ? target.Value : null);
    }

    /// <summary>What the path finds from <paramref name="root"/>; null where only the engine can tell.</summary>
    public IReadOnlyList<Base>? Walk(Base root)
    {
        if (type is not (null or "Resource" or "DomainResource") && type != root.TypeName)
        {
            return null;
        }

        List<Base> found = [root];
        foreach (var name in names)
        {
            List<Base> next = [];
            foreach (var element in found)
            {
                Children(element, name, next);
            }

            found = next;
        }

        return choice is not null ? OfChoice(found) : target is not null ? OfTarget(root, found) : found;
    }

    private static void Children(Base element, string name, List<Base> into)
    {
        if (!element.TryGetValue(name, out var value))
        {
            return;
        }

        switch (value)
        {
            case Base single:
                into.Add(single);
                break;
            case IEnumerable<Base> list:
                into.AddRange(list);
                break;
        }
    }

    // Whether a type derived from the one asked for counts, is for the engine to say.
    private List<Base>? OfChoice(List<Base> found) =>
        found.Exists(f => f.TypeName != choice && choiceType!.IsInstanceOfType(f)) ? null : found.FindAll(f => f.TypeName == choice);

    // "resolve() is Patient": the type in the reference answers. What is contained, or lies in the same Bundle, has no type in its reference.
    private List<Base>? OfTarget(Base root, List<Base> found) =>
        root is Bundle || found.Exists(f => f is not ResourceReference reference || reference.Reference?.StartsWith('#') == true)
            ? null
            : found.FindAll(f => ((ResourceReference)f).Reference is { } reference && ReferenceText.TypeOf(reference) == target);

    // Type.element.element, (Type.element as Choice), Type.element.as(Choice), Type.element.ofType(Choice), Type.element.where(resolve() is Type)
    [GeneratedRegex(@"^(?<open>\()?(?:(?<type>[A-Z]\w+)(?:\.(?<name>[a-z]\w*))*|(?<name>[a-z]\w*)(?:\.(?<name>[a-z]\w*))*)(?: as (?<choice>\w+)|\.(?:as|ofType)\((?<choice>\w+)\)|\.where\(resolve\(\) is (?<target>\w+)\))?(?<close>\))?$")]
    private static partial Regex Form();
}
