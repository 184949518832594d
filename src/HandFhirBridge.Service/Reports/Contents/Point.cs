namespace HandFhirBridge.Service.Reports.Contents;

/// <summary>A name and what is to be said of it.</summary>
/// <param name="Name">What it is about.</param>
/// <param name="Text">What is said.</param>
internal sealed record Point(string Name, string Text);
