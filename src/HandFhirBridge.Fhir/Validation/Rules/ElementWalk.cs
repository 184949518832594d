using System.Collections;
using System.Globalization;
using System.Text;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Rules;

/// <summary>Visits all elements of one type below a resource, and says where each stands only when asked.</summary>
/// <typeparam name="T">Type of the elements; elements inside one of them are not visited.</typeparam>
internal sealed class ElementWalk<T>
    where T : Base
{
    private readonly Resource _root;
    private readonly Action<T, ElementWalk<T>> _visit;
    private readonly Stack<(string Name, int? Index)> _path = new();

    private ElementWalk(Resource root, Action<T, ElementWalk<T>> visit) => (_root, _visit) = (root, visit);

    /// <summary>FHIRPath of the element being visited.</summary>
    internal string Location
    {
        get
        {
            var path = new StringBuilder(_root.TypeName);
            foreach (var (name, index) in _path.Reverse())
            {
                path.Append('.').Append(name);
                if (index is { } at)
                {
                    path.Append(CultureInfo.InvariantCulture, $"[{at}]");
                }
            }

            return path.ToString();
        }
    }

    internal static void Over(Resource root, Action<T, ElementWalk<T>> visit) => new ElementWalk<T>(root, visit).Below(root);

    private void Below(Base element)
    {
        foreach (var (name, value) in element.EnumerateElements())
        {
            if (value is Base single)
            {
                Step(name, null, single);
            }
            else if (value is IEnumerable list and not string)
            {
                var at = 0;
                foreach (var item in list.OfType<Base>())
                {
                    Step(name, at++, item);
                }
            }
        }
    }

    private void Step(string name, int? index, Base element)
    {
        if (element is PrimitiveType and not T)
        {
            return;
        }

        _path.Push((name, index));
        if (element is T wanted)
        {
            _visit(wanted, this);
        }
        else
        {
            Below(element);
        }

        _path.Pop();
    }
}
