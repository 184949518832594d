Invariant: hfb-12
Description: "A norm that serves demonstration only marks its reference range in words and the whole resource as test data."
Severity: #error
Expression: "referenceRange.where(extension.where(url = 'https://handfhirbridge.example/fhir/StructureDefinition/hfb-ext-norm-source' and extension.where(url = 'demonstrationOnly').value.where($this = true).exists()).exists()).exists() implies (meta.security.where(system = 'http://terminology.hl7.org/CodeSystem/v3-ActReason' and code = 'HTEST').exists() and referenceRange.where(extension.where(url = 'https://handfhirbridge.example/fhir/StructureDefinition/hfb-ext-norm-source' and extension.where(url = 'demonstrationOnly').value.where($this = true).exists()).exists()).all(text.contains('DEMONSTRATION')))"
