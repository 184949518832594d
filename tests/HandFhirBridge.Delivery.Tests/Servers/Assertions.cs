namespace HandFhirBridge.Delivery.Tests.Servers;

internal static class Assertions
{
    public static void ShouldNotContainAny(this string text, params string[] parts)
    {
        foreach (var part in parts)
        {
            text.ShouldNotContain(part);
        }
    }
}
