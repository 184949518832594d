namespace HandFhirBridge.Service.Intake;

/// <summary>One line of a text.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Bytes">Without the line break; empty if too long.</param>
/// <param name="IsTooLong">True if the line is longer than what was allowed.</param>
internal readonly record struct TextLine(long Number, ReadOnlyMemory<byte> Bytes, bool IsTooLong)
{
    /// <summary>True if nothing but white space stands in it.</summary>
    public bool IsBlank => !IsTooLong && Bytes.Span.Trim(" \t\r"u8).IsEmpty;
}
