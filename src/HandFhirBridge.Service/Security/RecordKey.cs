using System.Collections.Immutable;
using System.Security.Claims;
using HandFhirBridge.Delivery.Authorization;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Security;

/// <summary>
/// The key by which this program signs in to its own embedded record, as to any other target. It lies beside the record in the data
/// directory: whoever may read that directory has the record itself.
/// </summary>
internal static class RecordKey
{
    // No other key can have the name: it holds a dot.
    private const string Name = "embedded.record";

    // The record's account alone reads it.
    private static readonly FileStreamOptions Making = OperatingSystem.IsWindows()
        ? new() { Mode = FileMode.CreateNew, Access = FileAccess.Write }
        : new() { Mode = FileMode.CreateNew, Access = FileAccess.Write, UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite };

    /// <summary>What the record lets in; the key is made if there is none.</summary>
    public static MachineKey Entry(BridgeSettings settings)
    {
        var path = PathOf(settings);
        if (!File.Exists(path))
        {
            using var file = new StreamWriter(path, Making);
            file.Write(MachineKey.Create(Name, Scopes).Key);
        }

        return MachineKey.Of(File.ReadAllText(path).Trim(), Name, Scopes);
    }

    /// <summary>How clients of this program sign in to the record.</summary>
    public static SignInOptions SignIn(BridgeSettings settings) => new() { Method = SignInMethod.Bearer, Secret = $"file:{PathOf(settings)}" };

    /// <summary>True for a caller who signed in with it.</summary>
    public static bool Is(ClaimsPrincipal caller) => caller.Identity?.AuthenticationType == MachineKeyHandler.SchemeName && caller.FindFirstValue("sub") == Name;

    private static ImmutableArray<string> Scopes => [.. Security.Scopes.All];

    private static string PathOf(BridgeSettings settings) => Path.GetFullPath(Path.Combine(settings.DataDirectory, "record.key"));
}
