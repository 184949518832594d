using HandFhirBridge.Delivery.Authorization;
using Microsoft.Extensions.Time.Testing;

namespace HandFhirBridge.Delivery.Tests.Authorization;

public sealed class SignInCheckTests
{
    private readonly FakeTimeProvider clock = new(new DateTimeOffset(2026, 5, 4, 8, 0, 0, TimeSpan.Zero));

    public static TheoryData<SignInOptions, string> Faults => new()
    {
        { new() { Method = SignInMethod.Basic, Secret = "env:PATH" }, "Target:SignIn:ClientId is missing" },
        { new() { Method = SignInMethod.Basic, ClientId = "a:b", Secret = "env:PATH" }, "holds a colon" },
        { new() { Method = SignInMethod.Bearer }, "Target:SignIn:Secret must say where" },
        { new() { Method = SignInMethod.Bearer, Secret = "hunter2" }, "Target:SignIn:Secret must say where" },
        { new() { Method = SignInMethod.Bearer, Secret = "env:HFB_NOT_SET_ANYWHERE" }, "is missing or empty" },
        { new() { Method = SignInMethod.ClientSecret, ClientId = "a", Secret = "file:/no/such/file" }, "is missing or empty" },
        { new() { Method = SignInMethod.BackendServices, ClientId = "a" }, "KeysDirectory is missing" },
        { new() { Method = SignInMethod.BackendServices, ClientId = "a", KeysDirectory = "/no/such/folder" }, "holds no signing key" },
        { new() { ClientCertificatePath = "/no/such/file.pem" }, "is not a PEM file" },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public void Find_OneFault_NamesItOnce(SignInOptions options, string expected) =>
        SignInCheck.Find(options, "Target:SignIn", clock).ShouldHaveSingleItem().ShouldContain(expected);

    [Fact]
    public void Find_NothingSet_IsFine() =>
        SignInCheck.Find(new SignInOptions(), "Target:SignIn", clock).ShouldBeEmpty();
}
