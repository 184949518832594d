Invariant: hfb-11
Description: "The reason for a missing time fits the outcome."
Severity: #error
Expression: "dataAbsentReason.exists() implies ((extension.where(url = 'https://handfhirbridge.example/fhir/StructureDefinition/hfb-ext-outcome').value.where($this = 'declined').exists() = dataAbsentReason.coding.where(code = 'asked-declined').exists()) and (extension.where(url = 'https://handfhirbridge.example/fhir/StructureDefinition/hfb-ext-outcome').value.where($this = 'void').exists() = dataAbsentReason.coding.where(code = 'error').exists()))"
