namespace HandFhirBridge.Service.Charts.Pictures;

/// <summary>A norm over the time it applied.</summary>
/// <param name="From">Begin, in days.</param>
/// <param name="To">End.</param>
/// <param name="Mean">Mean, seconds.</param>
/// <param name="Low">Mean − 2 SD; null where there is no SD.</param>
/// <param name="High">Mean + 2 SD; null where there is no SD.</param>
internal sealed record NormBand(double From, double To, decimal Mean, decimal? Low, decimal? High);
