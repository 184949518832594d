using System.Buffers;
using System.Text.Json;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>
/// Puts the chart's address beside each identifier of the patient (a Reference of type Patient with <c>identifier</c>, R4
/// references.html#logical). The bytes are scanned and not built anew, so that everything else stays as it was validated.
/// </summary>
internal static class ChartReferences
{
    /// <summary>A copy with the address in each reference to the patient.</summary>
    /// <param name="json">UTF-8 JSON.</param>
    /// <param name="patient">The patient's identifier.</param>
    /// <param name="reference">Address of the chart, <c>Patient/id</c>.</param>
    public static ReadOnlyMemory<byte> Put(ReadOnlySpan<byte> json, BusinessIdentifier patient, string reference)
    {
        var value = JsonEncodedText.Encode(reference).EncodedUtf8Bytes;
        var places = Find(json, patient).OrderBy(place => place.Start).ToList();
        // There are other members after one that is put in: type and identifier at least.
        var result = new ArrayBufferWriter<byte>(json.Length + (places.Count * (value.Length + "\"reference\":\"\",".Length)));
        var copied = 0;
        foreach (var (start, length) in places)
        {
            result.Write(json[copied..start]);
            result.Write(length == 0 ? "\"reference\":\""u8 : "\""u8);
            result.Write(value);
            result.Write(length == 0 ? "\","u8 : "\""u8);
            copied = start + length;
        }

        result.Write(json[copied..]);
        return result.WrittenMemory;
    }

    /// <summary>Where the address goes: at the start of the reference, or in place of one that is there.</summary>
    private static List<(int Start, int Length)> Find(ReadOnlySpan<byte> json, BusinessIdentifier patient)
    {
        var places = new List<(int, int)>();
        var open = new Stack<Element>();
        var reader = new Utf8JsonReader(json);
        var member = Member.Other;
        while (reader.Read())
        {
            switch (reader.TokenType)
            {
                case JsonTokenType.PropertyName:
                    member = Name(ref reader);
                    break;
                case JsonTokenType.StartObject:
                    open.Push(new(member, (int)reader.BytesConsumed));
                    member = Member.Other;
                    break;
                case JsonTokenType.StartArray:
                    // What a list holds is not the member itself: R4 has one identifier in a Reference.
                    member = Member.Other;
                    break;
                case JsonTokenType.String:
                    Note(ref reader, member, open, patient);
                    member = Member.Other;
                    break;
                case JsonTokenType.EndObject:
                    Close(open, places);
                    break;
            }
        }

        return places;
    }

    private static Member Name(ref Utf8JsonReader reader) =>
        reader.ValueTextEquals("type"u8) ? Member.Type
        : reader.ValueTextEquals("identifier"u8) ? Member.Identifier
        : reader.ValueTextEquals("reference"u8) ? Member.Reference
        : reader.ValueTextEquals("system"u8) ? Member.System
        : reader.ValueTextEquals("value"u8) ? Member.Value
        : Member.Other;

    private static void Note(ref Utf8JsonReader reader, Member member, Stack<Element> open, BusinessIdentifier patient)
    {
        if (member == Member.Other || !open.TryPeek(out var element))
        {
            return;
        }

        switch (member)
        {
            case Member.Type:
                element.IsPatient = reader.ValueTextEquals("Patient"u8);
                break;
            case Member.System:
                element.HasSystem = reader.ValueTextEquals(patient.System);
                break;
            case Member.Value:
                element.HasValue = reader.ValueTextEquals(patient.Value);
                break;
            case Member.Reference:
                element.Reference = ((int)reader.TokenStartIndex, (int)(reader.BytesConsumed - reader.TokenStartIndex));
                break;
        }
    }

    private static void Close(Stack<Element> open, List<(int Start, int Length)> places)
    {
        var element = open.Pop();
        if (element.Member == Member.Identifier && element is { HasSystem: true, HasValue: true } && open.TryPeek(out var owner))
        {
            owner.IsIdentified = true;
        }

        if (element is { IsPatient: true, IsIdentified: true })
        {
            places.Add(element.Reference ?? (element.Start, 0));
        }
    }

    private enum Member
    {
        Other,
        Type,
        Identifier,
        Reference,
        System,
        Value,
    }

    /// <param name="member">What it is of the object around it.</param>
    /// <param name="start">Offset after its opening brace.</param>
    private sealed class Element(Member member, int start)
    {
        public Member Member => member;

        public int Start => start;

        public bool IsPatient { get; set; }

        public bool IsIdentified { get; set; }

        public bool HasSystem { get; set; }

        public bool HasValue { get; set; }

        public (int Start, int Length)? Reference { get; set; }
    }
}
