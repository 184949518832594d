using System.Net;
using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

/// <summary>Real TLS against a server whose certificate is past its time; all else about it is right.</summary>
public sealed class ExpiredCertificateTests : TargetTests
{
    private int requests;

    [Theory]
    [InlineData(1, true)]
    [InlineData(-1, false)]
    public async Task Connection_CertificateOfTheIssuerThatIsTrusted_IsUsedOnlyWithinItsTime(int daysLeft, bool used)
    {
        using var issuer = Issuer();
        using var certificate = Certificate(issuer, TimeProvider.System.GetUtcNow().AddDays(daysLeft));
        await using var server = await StartAsync(certificate);
        var trust = new X509ChainPolicy { TrustMode = X509ChainTrustMode.CustomRootTrust, RevocationMode = X509RevocationMode.NoCheck };
        trust.CustomTrustStore.Add(issuer);
        using var bridge = new Bridge(
            new(server.Urls.First().Replace("127.0.0.1", "localhost", StringComparison.Ordinal) + "/fhir"),
            wire: new() { SslOptions = new SslClientAuthenticationOptions { CertificateChainPolicy = trust } });

        var entry = await bridge.DeliverAsync(Session);

        (requests > 0).ShouldBe(used);
        // The server answers nothing but 503, so a connection that came about ends in the same wait.
        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Accepted, "HFB4001"));
        (await bridge.LastAttemptAsync(Session)).HttpStatus.ShouldBe(used ? 503 : null);
    }

    private static X509Certificate2 Issuer()
    {
        using var key = RSA.Create(2048);
        var request = new CertificateRequest("CN=Invented Issuer", key, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1);
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(true, false, 0, true));
        var now = TimeProvider.System.GetUtcNow();
        return request.CreateSelfSigned(now.AddYears(-2), now.AddYears(2));
    }

    private static X509Certificate2 Certificate(X509Certificate2 issuer, DateTimeOffset end)
    {
        using var key = RSA.Create(2048);
        var request = new CertificateRequest("CN=localhost", key, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1);
        var names = new SubjectAlternativeNameBuilder();
        names.AddDnsName("localhost");
        request.CertificateExtensions.Add(names.Build());
        using var signed = request.Create(issuer, end.AddDays(-30), end, [1, 2, 3, 4]);
        using var whole = signed.CopyWithPrivateKey(key);
        return X509CertificateLoader.LoadPkcs12(whole.Export(X509ContentType.Pkcs12), null);
    }

    private async Task<WebApplication> StartAsync(X509Certificate2 certificate)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseKestrelHttpsConfiguration();
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.Listen(IPAddress.Loopback, 0, listen => listen.UseHttps(certificate)));
        var server = builder.Build();
        server.Run(context =>
        {
            Interlocked.Increment(ref requests);
            context.Response.StatusCode = 503;
            return Task.CompletedTask;
        });
        await server.StartAsync(Cancellation);
        return server;
    }
}
