// The patient of the examples, found by identifier as before a delivery.
RuleSet: Subject
* subject.type = "Patient"
* subject.identifier.system = "https://north-clinic.example/patients"
* subject.identifier.value = "P-0001"
