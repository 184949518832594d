Invariant: hfb-24
Description: "A reference range carries the exact mean and standard deviation it was made from."
Severity: #error
Expression: "extension.where(url = 'https://handfhirbridge.example/fhir/StructureDefinition/hfb-ext-norm-source').extension.where(url = 'mean' or url = 'standardDeviation').count() = 2"
