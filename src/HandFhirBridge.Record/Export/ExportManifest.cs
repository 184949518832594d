using System.Text.Json.Nodes;

namespace HandFhirBridge.Record.Export;

/// <summary>What a client reads when an export is done (FHIR Bulk Data Access 2.0, "Response - Complete Status").</summary>
internal static class ExportManifest
{
    /// <param name="job">Done.</param>
    /// <param name="filesUrl">Absolute URL that names of files are put behind.</param>
    /// <param name="requiresToken">True if callers must sign in.</param>
    public static string Of(ExportJob job, string filesUrl, bool requiresToken)
    {
        var manifest = new JsonObject
        {
            ["transactionTime"] = job.TransactionTime.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", System.Globalization.CultureInfo.InvariantCulture),
            ["request"] = job.Order.Url,
            ["requiresAccessToken"] = requiresToken,
        };
        foreach (var kind in job.Order.Since is null ? ["output", "error"] : new[] { "output", "deleted", "error" })
        {
            manifest[kind] = new JsonArray([.. job.End!.Files.Where(f => f.Kind == kind).Select(f => new JsonObject
            {
                ["type"] = f.Type,
                ["url"] = filesUrl + f.Name,
                ["count"] = f.Count,
            })]);
        }

        return manifest.ToJsonString();
    }
}
