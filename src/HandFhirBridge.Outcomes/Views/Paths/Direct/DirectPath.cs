using System.Collections;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Outcomes.Views.Paths.Direct;

/// <summary>A part of an expression that only goes along elements and picks among them, followed in the resource itself.</summary>
internal abstract class DirectPath
{
    /// <summary>Adds what it gives.</summary>
    /// <param name="focus">Where it stands; null where there is nothing.</param>
    /// <param name="found">Takes the elements.</param>
    public abstract void Select(Base? focus, List<Base> found);

    /// <summary>What it gives.</summary>
    public List<Base> Select(Base? focus)
    {
        var found = new List<Base>();
        Select(focus, found);
        return found;
    }

    /// <summary>The element itself.</summary>
    public sealed class Here : DirectPath
    {
        public override void Select(Base? focus, List<Base> found)
        {
            if (focus is not null)
            {
                found.Add(focus);
            }
        }
    }

    /// <summary>Elements of a name.</summary>
    public sealed class Child(DirectPath of, string name) : DirectPath
    {
        public override void Select(Base? focus, List<Base> found)
        {
            if (of is Here)
            {
                Add(focus, found);
                return;
            }

            foreach (var element in of.Select(focus))
            {
                Add(element, found);
            }
        }

        private void Add(Base? element, List<Base> found)
        {
            if (element is null || !element.TryGetValue(name, out var value))
            {
                return;
            }

            switch (value)
            {
                case Base one:
                    found.Add(one);
                    break;
                case string text: // ids of elements and addresses of extensions
                    found.Add(new FhirString(text));
                    break;
                case IEnumerable several:
                    foreach (var one in several)
                    {
                        if (one is Base child)
                        {
                            found.Add(child);
                        }
                    }

                    break;
            }
        }
    }

    /// <summary>Those for which a condition holds.</summary>
    public sealed class Where(DirectPath of, DirectCondition condition) : DirectPath
    {
        public override void Select(Base? focus, List<Base> found)
        {
            foreach (var element in of.Select(focus))
            {
                if (condition.Holds(element) == true)
                {
                    found.Add(element);
                }
            }
        }
    }

    /// <summary>Those of a type.</summary>
    public sealed class OfType(DirectPath of, string type) : DirectPath
    {
        /// <summary>True if what it gives are texts, so that functions of several texts go on from it.</summary>
        public bool IsText => type is "string" or "code";

        public override void Select(Base? focus, List<Base> found) => found.AddRange(of.Select(focus).Where(e => e.TypeName == type));
    }

    /// <summary>The first one.</summary>
    public sealed class First(DirectPath of) : DirectPath
    {
        public override void Select(Base? focus, List<Base> found)
        {
            if (of.Select(focus) is [var first, ..])
            {
                found.Add(first);
            }
        }
    }

    /// <summary>Key of the resource, or of the one referred to.</summary>
    public sealed class Key(DirectPath of, Func<Base, string?> key) : DirectPath
    {
        public override void Select(Base? focus, List<Base> found)
        {
            foreach (var element in of.Select(focus))
            {
                if (key(element) is { } text)
                {
                    found.Add(new FhirString(text));
                }
            }
        }
    }

    /// <summary>A function of the one element there is.</summary>
    public sealed class Function(DirectPath of, Func<Base, Base?> function) : DirectPath
    {
        public override void Select(Base? focus, List<Base> found)
        {
            var elements = of.Select(focus);
            if (elements.Count > 1)
            {
                throw new InvalidOperationException("A function of one value was called on several.");
            }

            if (elements is [var one] && function(one) is { } result)
            {
                found.Add(result);
            }
        }
    }

    /// <summary><c>distinct</c> of texts.</summary>
    public sealed class Distinct(DirectPath of) : DirectPath
    {
        public override void Select(Base? focus, List<Base> found) => found.AddRange(of.Select(focus).DistinctBy(e => (e as PrimitiveType)?.JsonValue));
    }

    /// <summary><c>join</c> of texts; nothing of nothing.</summary>
    public sealed class Join(DirectPath of, string separator) : DirectPath
    {
        public override void Select(Base? focus, List<Base> found)
        {
            if (of.Select(focus) is { Count: > 0 } texts)
            {
                found.Add(new FhirString(string.Join(separator, texts.Select(e => (e as PrimitiveType)?.JsonValue))));
            }
        }
    }

    /// <summary>A condition's answer.</summary>
    public sealed class Answer(DirectCondition condition) : DirectPath
    {
        public override void Select(Base? focus, List<Base> found)
        {
            if (condition.Holds(focus) is { } holds)
            {
                found.Add(new FhirBoolean(holds));
            }
        }
    }
}
