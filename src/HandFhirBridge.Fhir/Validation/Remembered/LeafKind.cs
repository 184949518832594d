namespace HandFhirBridge.Fhir.Validation.Remembered;

/// <summary>Which of its features a passed-over value is remembered by. A value without them is out of the ordinary, and so is its resource.</summary>
internal enum LeafKind
{
    /// <summary>Letters, digits, hyphen and dot, at most 64: one class.</summary>
    Id,

    /// <summary>Words, with what rules look for in them: see <see cref="OrdinaryValue"/>.</summary>
    Words,

    /// <summary>Words without white space: one class.</summary>
    Token,

    /// <summary>Address of a code system: one class.</summary>
    System,

    /// <summary>A decimal, by whether it is less than, equal to or more than 0 and 2.</summary>
    Decimal,

    /// <summary>A whole number of at least 1: one class.</summary>
    Count,

    /// <summary>Date, time to the second or finer, and offset: one class.</summary>
    Moment,

    /// <summary>A moment that is compared with another, by the number of its decimals, as moments of different precision may not compare.</summary>
    End,

    /// <summary>A day that exists: one class.</summary>
    Day,

    /// <summary>Base64 without white space, at most a million characters: one class.</summary>
    Data,

    /// <summary>XHTML, by its tags and attributes word for word, and by where there is text.</summary>
    Markup,

    /// <summary>Address of an entry, <c>urn:uuid:</c>: one class, as each must be another.</summary>
    Address,

    /// <summary>Type, slash, id: by the type.</summary>
    TypeAndId,
}
