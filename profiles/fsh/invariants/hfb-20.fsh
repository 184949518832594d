Invariant: hfb-20
Description: "A report that rests on a norm for demonstration says so in its conclusion and is marked as test data."
Severity: #error
Expression: "extension.where(url = 'https://handfhirbridge.example/fhir/StructureDefinition/hfb-ext-norm-source' and extension.where(url = 'demonstrationOnly').value.where($this = true).exists()).exists() implies (meta.security.where(system = 'http://terminology.hl7.org/CodeSystem/v3-ActReason' and code = 'HTEST').exists() and conclusion.contains('DEMONSTRATION'))"
