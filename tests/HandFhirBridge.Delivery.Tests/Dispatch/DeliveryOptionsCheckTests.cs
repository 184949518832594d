using HandFhirBridge.Delivery.Dispatch;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

public sealed class DeliveryOptionsCheckTests
{
    public static TheoryData<Action<DeliveryOptions>, string> Faults => new()
    {
        { o => o.Targets.Clear(), "Targets is empty" },
        { o => o.Targets.Add(new() { BaseUrl = new("https://other.example/r4") }), "the name default more than once" },
        { o => o.Targets[0].BaseUrl = null, "Targets:default:BaseUrl is missing" },
        { o => o.Targets[0].BaseUrl = new("ftp://fhir.example/r4"), "Targets:default:BaseUrl is ftp://fhir.example/r4" },
        { o => o.Targets[0].BaseUrl = new("https://fhir.example/r4?tenant=1"), "without a query" },
        { o => o.Targets[0].Timeout = TimeSpan.Zero, "Targets:default:Timeout is 00:00:00" },
        { o => o.Targets[0].SignIn.Method = HandFhirBridge.Delivery.Authorization.SignInMethod.Basic, "Targets:default:SignIn:ClientId is missing" },
        { o => o.Concurrency = 0, "Concurrency is 0; choose a value from 1 to 64." },
        { o => o.LedgerConnection = "env:SOMETHING", "SingleInstance is true" },
        { o => o.Targets[0].Concurrency = 65, "Targets:default:Concurrency is 65" },
        { o => o.Targets[0].SessionsPerMinute = 0, "Targets:default:SessionsPerMinute is 0" },
        { o => o.LedgerPath = " ", "LedgerPath is empty" },
        { o => o.Retry.ErrorLimit = 0, "Retry:ErrorLimit is 0" },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public void Validate_WrongSetting_IsNamedWithItsRemedy(Action<DeliveryOptions> spoil, string expected)
    {
        var options = Good();
        spoil(options);

        var result = new DeliveryOptionsCheck(TimeProvider.System).Validate(null, options);

        result.FailureMessage.ShouldNotBeNull().ShouldContain(expected);
    }

    [Fact]
    public void Validate_Defaults_ArePassed() => new DeliveryOptionsCheck(TimeProvider.System).Validate(null, Good()).Succeeded.ShouldBeTrue();

    private static DeliveryOptions Good()
    {
        var options = new DeliveryOptions();
        options.Targets.Add(new TargetOptions { BaseUrl = new("https://fhir.clinic.example/r4") });
        return options;
    }
}
