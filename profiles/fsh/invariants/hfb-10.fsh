Invariant: hfb-10
Description: "The value fits the outcome: completed has a plain time, stopped at the cap a bound, every other outcome none."
Severity: #error
Expression: "(extension.where(url = 'https://handfhirbridge.example/fhir/StructureDefinition/hfb-ext-outcome').value.where($this = 'completed').exists() implies (value.exists() and value.ofType(Quantity).comparator.empty())) and (extension.where(url = 'https://handfhirbridge.example/fhir/StructureDefinition/hfb-ext-outcome').value.where($this = 'stopped-at-cap').exists() implies value.ofType(Quantity).comparator.exists()) and (extension.where(url = 'https://handfhirbridge.example/fhir/StructureDefinition/hfb-ext-outcome').value.where($this != 'completed' and $this != 'stopped-at-cap').exists() implies value.empty())"
