using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Reflection;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace HandFhirBridge.Assessment.Sessions;

/// <summary>Names under which enum members are written in documents, CSV and code systems: kebab-case (<c>stopped-at-cap</c>), or the name given by <see cref="JsonStringEnumMemberNameAttribute"/>.</summary>
public static class WireName
{
    /// <summary>Written name of a member.</summary>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="value"/> is no declared member.</exception>
    public static string Of<T>(T value)
        where T : struct, Enum =>
        Table<T>.Names.TryGetValue(value, out var name) ? name : throw new ArgumentOutOfRangeException(nameof(value), value, null);

    /// <summary>Member with this written name (case counts), or null if there is none.</summary>
    public static T? Find<T>(string name)
        where T : struct, Enum =>
        Table<T>.Members.TryGetValue(name, out var value) ? value : null;

    /// <summary>All written names in declaration order.</summary>
    public static ImmutableArray<string> All<T>()
        where T : struct, Enum => Table<T>.Ordered;

    private static class Table<T>
        where T : struct, Enum
    {
        public static readonly ImmutableArray<string> Ordered = [.. Enum.GetValues<T>().Select(Written)];
        public static readonly FrozenDictionary<T, string> Names = Enum.GetValues<T>().ToFrozenDictionary(v => v, Written);
        public static readonly FrozenDictionary<string, T> Members = Names.ToFrozenDictionary(p => p.Value, p => p.Key);

        private static string Written(T value) =>
            typeof(T).GetField(value.ToString())!.GetCustomAttribute<JsonStringEnumMemberNameAttribute>()?.Name
            ?? JsonNamingPolicy.KebabCaseLower.ConvertName(value.ToString());
    }
}
