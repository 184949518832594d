using System.Collections.Immutable;
using System.Reflection;
using System.Runtime.CompilerServices;
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
        Table<T>.Names.Of(Unsafe.BitCast<T, int>(value)) ?? throw new ArgumentOutOfRangeException(nameof(value), value, null);

    /// <summary>Member with this written name (case counts), or null if there is none.</summary>
    public static T? Find<T>(string name)
        where T : struct, Enum =>
        Table<T>.Names.Find(name) is { } value ? Unsafe.BitCast<int, T>(value) : null;

    /// <summary>All written names in declaration order.</summary>
    public static ImmutableArray<string> All<T>()
        where T : struct, Enum => Table<T>.Names.All;

    private static class Table<T>
        where T : struct, Enum
    {
        public static readonly EnumNames Names = new(typeof(T));
    }

    /// <summary>Members by number. Not generic: dictionaries over each enum by itself were compiled at every start, which took a seventh of a first verdict.</summary>
    private sealed class EnumNames
    {
        private readonly int[] values;

        public EnumNames(Type type)
        {
            values = (int[])Enum.GetValuesAsUnderlyingType(type);
            All = [.. values.Select(value => Written(type, Enum.GetName(type, value)!))];
        }

        public ImmutableArray<string> All { get; }

        public string? Of(int value) => Array.IndexOf(values, value) is >= 0 and var index ? All[index] : null;

        public int? Find(string name) => All.IndexOf(name) is >= 0 and var index ? values[index] : null;

        private static string Written(Type type, string member) =>
            type.GetField(member)!.GetCustomAttribute<JsonStringEnumMemberNameAttribute>()?.Name ?? JsonNamingPolicy.KebabCaseLower.ConvertName(member);
    }
}
