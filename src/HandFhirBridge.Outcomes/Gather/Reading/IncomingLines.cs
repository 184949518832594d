using System.Text.Json;
using HandFhirBridge.Outcomes.Gather.State;

namespace HandFhirBridge.Outcomes.Gather.Reading;

/// <summary>Puts what came into the incoming files and accounts for it in the state.</summary>
/// <param name="folder">The source's folder.</param>
/// <param name="state">The source's state, with a gathering under way.</param>
internal sealed class IncomingLines(SourceFolder folder, SourceState state)
{
    private static ReadOnlySpan<byte> LineEnd => "\n"u8;

    /// <summary>Adds resources of one type; they count once <see cref="Account"/> is called.</summary>
    public long Add(string type, IEnumerable<JsonElement> resources)
    {
        var pending = state.Pending!;
        var count = 0L;
        pending.Lengths[type] = folder.Append(type, pending.Lengths.GetValueOrDefault(type), file =>
        {
            using var json = new Utf8JsonWriter(file);
            foreach (var resource in resources)
            {
                KeptElements.Write(resource, json);
                json.Flush();
                file.Write(LineEnd);
                json.Reset();
                count++;
            }
        });
        pending.Read += count;
        return count;
    }

    /// <summary>Forgets what was read of a type.</summary>
    public void Drop(string type) => state.Pending!.Lengths[type] = folder.Append(type, 0, _ => { });

    /// <summary>Keeps the state.</summary>
    public void Account() => folder.Save(state);
}
