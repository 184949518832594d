using HandFhirBridge.Delivery.Authorization;
using HandFhirBridge.Delivery.Targets;
using Microsoft.Extensions.Options;

namespace HandFhirBridge.Delivery.Dispatch;

/// <summary>Names every setting that is missing or out of range, in one go.</summary>
/// <param name="clock">Tells whether certificates are in force.</param>
public sealed class DeliveryOptionsCheck(TimeProvider clock) : IValidateOptions<DeliveryOptions>
{
    /// <inheritdoc/>
    public ValidateOptionsResult Validate(string? name, DeliveryOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        var faults = Of(options).Concat(options.Targets.SelectMany(Of))
            .Concat(options.Targets.SelectMany(target => SignInCheck.Find(target.SignIn, $"Targets:{target.Name}:SignIn", clock)))
            .ToList();
        return faults.Count == 0 ? ValidateOptionsResult.Success : ValidateOptionsResult.Fail(faults);
    }

    private static IEnumerable<string> Of(DeliveryOptions options)
    {
        var faults = new List<string?>
        {
            string.IsNullOrWhiteSpace(options.LedgerPath) ? "LedgerPath is empty; name the ledger's file." : null,
            options is { LedgerConnection: not null, SingleInstance: true }
                ? "SingleInstance is true, and the ledger is one that several instances share; set it to false."
                : null,
            Range("Concurrency", options.Concurrency, 1, 64),
            Range("PollInterval", options.PollInterval, TimeSpan.FromMilliseconds(100), TimeSpan.FromMinutes(1)),
            Range("LeaseDuration", options.LeaseDuration, TimeSpan.FromMinutes(1), TimeSpan.FromHours(1)),
            Range("Retry:First", options.Retry.First, TimeSpan.FromMilliseconds(100), TimeSpan.FromHours(1)),
            Range("Retry:FirstAfterError", options.Retry.FirstAfterError, TimeSpan.FromMilliseconds(100), TimeSpan.FromDays(1)),
            Range("Retry:Longest", options.Retry.Longest, TimeSpan.FromSeconds(1), TimeSpan.FromDays(7)),
            Range("Retry:ErrorLimit", options.Retry.ErrorLimit, 1, 100),
            options.Targets.Count == 0 ? "Targets is empty; name at least one FHIR server." : null,
        };
        faults.AddRange(options.Targets.GroupBy(t => t.Name).Where(g => g.Count() > 1).Select(g => $"Targets holds the name {g.Key} more than once; give each its own."));
        return faults.OfType<string>();
    }

    private static IEnumerable<string> Of(TargetOptions target)
    {
        var name = $"Targets:{target.Name}";
        return new[]
        {
            string.IsNullOrWhiteSpace(target.Name) ? "A target has no Name; give it one." : null,
            target.BaseUrl is { IsAbsoluteUri: true, Scheme: "http" or "https", Query: "" }
                ? null
                : $"{name}:BaseUrl is {target.BaseUrl?.ToString() ?? "missing"}; write the FHIR base as an absolute http or https address without a query.",
            Range($"{name}:Concurrency", target.Concurrency, 1, 64),
            target.SessionsPerMinute is { } rate ? Range($"{name}:SessionsPerMinute", rate, 1, 6_000) : null,
            Range($"{name}:Timeout", target.Timeout, TimeSpan.FromSeconds(1), TimeSpan.FromMinutes(10)),
            Range($"{name}:ConnectTimeout", target.ConnectTimeout, TimeSpan.FromSeconds(1), TimeSpan.FromMinutes(1)),
            Range($"{name}:ConnectRetries", target.ConnectRetries, 0, 5),
            Range($"{name}:BreakDuration", target.BreakDuration, TimeSpan.FromSeconds(1), TimeSpan.FromHours(1)),
            Range($"{name}:RetryAfterCap", target.RetryAfterCap, TimeSpan.FromSeconds(1), TimeSpan.FromDays(1)),
            Range($"{name}:CapabilitiesMaxAge", target.CapabilitiesMaxAge, TimeSpan.FromMinutes(1), TimeSpan.FromDays(30)),
            Enum.IsDefined(target.BestRung) ? null : $"{name}:BestRung is {target.BestRung}; choose a rung from 1 to 5.",
            Range($"{name}:LargestAnswerBytes", target.LargestAnswerBytes, 64 * 1024, 256 * 1024 * 1024),
        }.OfType<string>();
    }

    private static string? Range<T>(string name, T value, T least, T most)
        where T : IComparable<T> =>
        value.CompareTo(least) < 0 || value.CompareTo(most) > 0 ? $"{name} is {value}; choose a value from {least} to {most}." : null;
}
