using System.Text.Json.Nodes;

namespace HandFhirBridge.Faults.Tests.Servers;

/// <summary>
/// Conditional creates as many servers do them: first a search, later a create that nothing keeps from making a second one
/// (R4 http.html#ccreate asks for no lock).
/// </summary>
internal static class RacingCreates
{
    public static async Task<Answer> StoreAsync(Faults faults, Sent sent)
    {
        faults.Met();
        var transaction = JsonNode.Parse(sent.Body)!.AsObject();
        foreach (var entry in transaction["entry"]!.AsArray())
        {
            var request = entry!["request"]!.AsObject();
            if ((string?)request["ifNoneExist"] is { } condition && !await ExistsAsync(faults, (string)request["url"]!, condition))
            {
                request.Remove("ifNoneExist");
            }
        }

        await Task.Delay(faults.Next(400));
        return await faults.AskAsync(sent, transaction.ToJsonString());
    }

    private static async Task<bool> ExistsAsync(Faults faults, string type, string condition)
    {
        var found = JsonNode.Parse(await faults.Inner.GetStringAsync(new Uri($"{type}?{condition}", UriKind.Relative)))!;
        return found["entry"] is JsonArray { Count: > 0 };
    }
}
