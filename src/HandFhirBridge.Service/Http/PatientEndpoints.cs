using HandFhirBridge.Delivery.Reading;
using HandFhirBridge.Service.Auditing;
using HandFhirBridge.Service.Pipeline;
using HandFhirBridge.Service.Reports;
using HandFhirBridge.Service.Security;

namespace HandFhirBridge.Service.Http;

/// <summary>What the bedside needs to confirm that this is the right chart.</summary>
public static class PatientEndpoints
{
    /// <summary>Maps <c>/patients</c>.</summary>
    public static void MapPatients(this IEndpointRouteBuilder endpoints) =>
        endpoints.MapGet("/patients", FindAsync).RequireAuthorization(Scopes.Read).Audit("search-type").WithTags("Patients")
            .WithSummary("The one patient who carries an identifier in the record, to be confirmed by family name and birth date.");

    private static async Task<IResult> FindAsync(
        string system, string value, string? site, RecordReaders records, SiteRegister sites, RecordedReports reports, CancellationToken cancellation)
    {
        // Without a site, the record that most sites share.
        var record = site is null ? records.First : records.Of(sites.TargetOf(site));
        try
        {
            var found = await record.FindPatientsAsync(system, value, cancellation);
            // More than one is no match: nobody is proposed who might be the wrong one.
            if (found is not [{ } patient])
            {
                return Results.Ok(new { Found = false });
            }

            var name = patient.Name.FirstOrDefault(n => n.Use == Hl7.Fhir.Model.HumanName.NameUse.Official) ?? patient.Name.FirstOrDefault();
            return Results.Ok(new
            {
                Found = true,
                FamilyName = name?.Family,
                patient.BirthDate,
                Sex = patient.Gender?.ToString().ToLowerInvariant(),
                LastSession = await reports.LatestOfAsync(record, $"Patient/{patient.Id}", cancellation),
            });
        }
        catch (Exception failed) when (failed is RecordReadException or HttpRequestException)
        {
            return FhirResults.Refused(ServiceProblems.TargetUnreadable.At("", "The record cannot be read now."));
        }
    }
}
