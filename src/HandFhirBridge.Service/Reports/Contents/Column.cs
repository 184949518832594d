namespace HandFhirBridge.Service.Reports.Contents;

/// <summary>A column of a table.</summary>
/// <param name="Heading">Heading.</param>
/// <param name="Share">Share of the width beside the other columns.</param>
/// <param name="Number">True for figures, which are set to the right.</param>
internal sealed record Column(string Heading, double Share, bool Number = false);
