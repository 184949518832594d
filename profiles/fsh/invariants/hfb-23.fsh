Invariant: hfb-23
Description: "A source of the time stands only where there is a time."
Severity: #error
Expression: "extension.where(url = 'https://handfhirbridge.example/fhir/StructureDefinition/hfb-ext-time-source').exists() implies value.exists()"
