namespace HandFhirBridge.Outcomes.Gather;

/// <summary>A FHIR server that outcomes are gathered from.</summary>
/// <param name="Name">Its folder in the gathered set: letters, digits, dots, hyphens, underscores.</param>
/// <param name="BaseUrl">FHIR base with a slash at its end.</param>
/// <param name="Client">Signs in where that is needed; used for addresses of this server alone.</param>
/// <param name="Plain">Does not sign in; for files of an export that need no token and may lie elsewhere.</param>
public sealed record GatherSource(string Name, Uri BaseUrl, HttpClient Client, HttpClient Plain)
{
    /// <summary>What tells this server from another under the same name; another one is gathered anew. Default its address.</summary>
    public string Identity { get; init; } = BaseUrl.AbsoluteUri;

    /// <summary>True if an address is at this server, so that the sign-in may go there.</summary>
    internal bool Owns(Uri address) =>
        Uri.Compare(address, BaseUrl, UriComponents.SchemeAndServer, UriFormat.Unescaped, StringComparison.OrdinalIgnoreCase) == 0;
}
