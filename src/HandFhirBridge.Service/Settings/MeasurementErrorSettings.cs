namespace HandFhirBridge.Service.Settings;

/// <summary>Measurement error of one task or total in one named population, as a site took it from a publication.</summary>
public sealed class MeasurementErrorSettings
{
    /// <summary>Instrument id.</summary>
    public string Instrument { get; set; } = "seven-task";

    /// <summary>Task id or total id.</summary>
    public string Subject { get; set; } = "";

    /// <summary><c>dominant</c>, <c>non-dominant</c>, or null for both.</summary>
    public string? Role { get; set; }

    /// <summary>The population, in words; shown beside every verdict.</summary>
    public string Population { get; set; } = "";

    /// <summary>Standard deviation in seconds; with <see cref="Icc"/> gives the SEM.</summary>
    public decimal? StandardDeviation { get; set; }

    /// <summary>Test-retest intraclass correlation, 0 to 1.</summary>
    public decimal? Icc { get; set; }

    /// <summary>Standard error of measurement in seconds, instead of SD and ICC.</summary>
    public decimal? Sem { get; set; }

    /// <summary>Confidence level in percent: 90 or 95. Default 95.</summary>
    public int Level { get; set; } = 95;

    /// <summary>Citation.</summary>
    public string Source { get; set; } = "";
}
