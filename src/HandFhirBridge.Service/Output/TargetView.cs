using HandFhirBridge.Delivery.Authorization;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Service.Output;

/// <summary>What is known of a target, as it is shown. Holds no secrets and nothing of any session.</summary>
/// <param name="Name">Name in the ledger.</param>
/// <param name="BaseUrl">FHIR base; null for an embedded record that was not yet started.</param>
/// <param name="SignIn">Method.</param>
/// <param name="MutualTls">True if a client certificate goes with it.</param>
/// <param name="OnDifference">What follows when it keeps something other than was sent.</param>
/// <param name="Capabilities">As declared last; null before the first delivery.</param>
/// <param name="Rung">Rung in use; null until it is found out.</param>
/// <param name="LastFall">Last fall from rung to rung; null if there was none.</param>
public sealed record TargetView(
    string Name,
    Uri? BaseUrl,
    SignInMethod SignIn,
    bool MutualTls,
    DifferenceAction OnDifference,
    TargetCapabilities? Capabilities,
    RungMemory? Rung,
    RungFall? LastFall);
