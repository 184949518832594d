using System.Buffers;
using System.Buffers.Binary;
using System.Collections;
using System.Runtime.InteropServices;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Remembered;

/// <summary>
/// Writes everything a verdict on a resource depends on: names, types, numbers of repetitions, and values word for word, but
/// of values that are passed over their class, and of a reference into the bundle the type and profiles of its target.
/// Every part is written with its length, so that different shapes never give the same bytes. See ADR 0404.
/// </summary>
internal sealed class ShapeWriter
{
    private readonly ArrayBufferWriter<byte> _written = new(8192);
    private readonly Resource _root;
    private readonly BundleAddresses? _addresses;
    private bool _isOrdinary = true;

    private ShapeWriter(Resource root, BundleAddresses? addresses) => (_root, _addresses) = (root, addresses);

    private enum Mark : byte
    {
        Element = 1,
        List,
        End,
        Exact,
        Class,
        Target,
        EntryOfType,
        Order,
        NotThere,
    }

    /// <summary>The shape of a resource.</summary>
    /// <param name="resource">A resource that is validated alone, an entry's, or a bundle, whose entries' resources are passed over.</param>
    /// <param name="addresses">Entries beside it; null if it is not in a bundle.</param>
    /// <returns>Null if something in it is out of the ordinary.</returns>
    internal static ShapeKey? Of(Resource resource, BundleAddresses? addresses)
    {
        var writer = new ShapeWriter(resource, addresses);
        writer.Put(addresses is null ? Mark.NotThere : Mark.Target);
        writer.Root();
        return writer._isOrdinary ? ShapeKey.Of(writer._written.WrittenSpan) : null;
    }

    private void Root()
    {
        _isOrdinary = !_root.HasOverflow;
        if (_isOrdinary)
        {
            Element(_root, _root.TypeName);
        }
    }

    private void Element(Base element, string holder)
    {
        Put(Mark.Element);
        Put(element.TypeName);
        foreach (var (name, value) in element.EnumerateElements())
        {
            if (!_isOrdinary)
            {
                return;
            }

            Put(name);
            Value(element, holder, name, value);
        }

        if (_isOrdinary)
        {
            Ends(element);
        }

        Put(Mark.End);
    }

    private void Value(Base element, string holder, string name, object value)
    {
        switch (value)
        {
            case Base single:
                Child(element, holder, name, single);
                break;
            case string text:
                Exact(text);
                break;
            case IList list:
                Put(Mark.List);
                Put(list.Count);
                foreach (var item in list)
                {
                    Value(element, holder, name, item);
                }

                break;
            default:
                _isOrdinary = false;
                break;
        }
    }

    // What does not fit its property stands in the overflow; asking the property for it throws.
    private void Child(Base element, string holder, string name, Base child)
    {
        switch (child)
        {
            case { HasOverflow: true }:
                _isOrdinary = false;
                break;
            case Resource resource:
                Entry(element, resource);
                break;
            case PrimitiveType primitive:
                Leaf(element, holder, name, primitive);
                break;
            default:
                Element(child, PassedOver.HolderOf(child, holder, name));
                break;
        }
    }

    // bdl-7 reads the version of an entry's resource; of what is contained in a resource rules read more.
    private void Entry(Base element, Resource resource)
    {
        Put(Mark.EntryOfType);
        Put(resource.TypeName);
        _isOrdinary &= _root is Bundle && element is Bundle.EntryComponent && IsReadable(resource) && resource.Meta?.VersionIdElement is null;
    }

    private void Leaf(Base element, string holder, string name, PrimitiveType leaf)
    {
        Put(leaf.TypeName);
        if (leaf.HasElements || leaf.JsonValue is null)
        {
            _isOrdinary = false;
        }
        else if (element is ResourceReference && name == "reference")
        {
            Reference(leaf.JsonValue as string);
        }
        else if (PassedOver.KindOf(holder, name, leaf) is { } kind)
        {
            Classed(kind, leaf.JsonValue);
        }
        else
        {
            Exact(leaf.JsonValue);
        }
    }

    private void Classed(LeafKind kind, object value)
    {
        Put(Mark.Class);
        Put((int)kind);
        if (kind is LeafKind.Markup or LeafKind.TypeAndId)
        {
            var text = kind == LeafKind.TypeAndId ? OrdinaryValue.TypeIn(value) : value is string markup ? MarkupShape.Of(markup) : null;
            _isOrdinary &= text is not null;
            Put(text ?? string.Empty);
        }
        else
        {
            var ordinary = OrdinaryValue.ClassOf(kind, value);
            _isOrdinary &= ordinary is not null;
            Put(ordinary ?? 0);
        }
    }

    private static bool IsReadable(Resource resource) => !resource.HasOverflow && resource.Meta?.HasOverflow != true;

    // Into the bundle: what the target is. Elsewhere: word for word. What might be found in another way is not remembered.
    private void Reference(string? address)
    {
        if (address is null || address.StartsWith('#'))
        {
            _isOrdinary = false;
        }
        else if (_addresses?.Find(address) is { } target)
        {
            // A statement about a statement could lead the validator round in a circle.
            _isOrdinary &= target is not Provenance && IsReadable(target);
            if (!_isOrdinary)
            {
                return;
            }

            Put(Mark.Target);
            Put(target.TypeName);
            var profiles = target.Meta?.ProfileElement ?? [];
            Put(profiles.Count);
            profiles.ForEach(profile => Exact(profile.JsonValue));
        }
        else
        {
            _isOrdinary &= !address.StartsWith("urn:", StringComparison.Ordinal);
            Exact(address);
        }
    }

    // Rules compare the two ends of a range or a period with each other.
    private void Ends(Base element)
    {
        switch (element)
        {
            case Period { StartElement.JsonValue: string start, EndElement.JsonValue: string end }:
                Ordered(OrdinaryValue.Order(start, end));
                break;
            case Hl7.Fhir.Model.Range { Low: { } low, High: { } high }:
                Ordered(OrdinaryValue.Order(low, high));
                break;
            case Observation.ReferenceRangeComponent { Low: { } low, High: { } high }:
                Ordered(OrdinaryValue.Order(low, high));
                break;
        }
    }

    private void Ordered(int? order)
    {
        _isOrdinary &= order is not null;
        Put(Mark.Order);
        Put(Math.Sign(order ?? 0));
    }

    private void Exact(object? value)
    {
        Put(Mark.Exact);
        switch (value)
        {
            case string text:
                Put((byte)'s');
                Put(text);
                break;
            case bool truth:
                Put(truth ? (byte)'t' : (byte)'f');
                break;
            case int number:
                Put((byte)'i');
                Put(number);
                break;
            case decimal number:
                Put((byte)'d');
                foreach (var part in decimal.GetBits(number))
                {
                    Put(part);
                }

                break;
            default:
                _isOrdinary = false;
                break;
        }
    }

    private void Put(Mark mark) => Put((byte)mark);

    private void Put(byte value)
    {
        _written.GetSpan(1)[0] = value;
        _written.Advance(1);
    }

    private void Put(int value)
    {
        BinaryPrimitives.WriteInt32LittleEndian(_written.GetSpan(sizeof(int)), value);
        _written.Advance(sizeof(int));
    }

    // UTF-16 as it is in memory: no two texts become the same bytes, lone surrogates included.
    private void Put(string text)
    {
        Put(text.Length);
        _written.Write(MemoryMarshal.AsBytes(text.AsSpan()));
    }
}
