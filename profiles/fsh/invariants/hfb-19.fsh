Invariant: hfb-19
Description: "The set-up response of a corrected session (revision 2 and later) is not marked as the first version."
Severity: #error
Expression: "extension.where(url = 'https://handfhirbridge.example/fhir/StructureDefinition/hfb-ext-session-revision').value.where($this > 1).exists() implies status != 'completed'"
