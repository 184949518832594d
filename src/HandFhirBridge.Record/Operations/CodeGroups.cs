using System.Text.Json;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Operations;

/// <summary>
/// Groups Observations by code as <c>$lastn</c> does (R4 OperationDefinition/Observation-lastn): codes are equivalent "if the coding.value and
/// coding.system are the same", text alone is compared as it is, and translations "SHALL follow the transitive property of equality".
/// </summary>
internal sealed class CodeGroups
{
    private readonly Dictionary<string, string> parents = [];

    /// <summary>Takes in the code of one Observation; what shares a coding with it joins its group.</summary>
    /// <param name="observation">The resource.</param>
    /// <returns>A name of the code to ask <see cref="Of"/> with, once all are in.</returns>
    public string Add(JsonElement observation) => Add(Names(observation));

    /// <summary>Takes in a code, as <see cref="Add(JsonElement)"/> does that of an Observation.</summary>
    public string Add(CodeableConcept code)
    {
        List<string> codings = [.. code.Coding.Where(c => c.Code is not null).Select(c => $"c{c.System}|{c.Code}")];
        return Add(codings.Count > 0 ? codings : ["t" + code.Text]);
    }

    private string Add(List<string> names)
    {
        foreach (var name in names)
        {
            parents.TryAdd(name, name);
            parents[Of(name)] = Of(names[0]);
        }

        return names[0];
    }

    /// <summary>The group that a code belongs to.</summary>
    public string Of(string name)
    {
        while (parents[name] != name)
        {
            name = parents[name] = parents[parents[name]];
        }

        return name;
    }

    private static List<string> Names(JsonElement observation)
    {
        var code = observation.GetProperty("code");
        List<string> codings = code.TryGetProperty("coding", out var list)
            ? [.. list.EnumerateArray().Where(c => c.TryGetProperty("code", out _)).Select(c => $"c{Text(c, "system")}|{Text(c, "code")}")]
            : [];
        // Text counts where there is nothing else: the text beside a code is how one site words it.
        return codings.Count > 0 ? codings : ["t" + Text(code, "text")];
    }

    private static string Text(JsonElement element, string name) => element.TryGetProperty(name, out var value) ? value.GetString()! : "";
}
