// What every observation of the examples shares.
RuleSet: ObservationBase(kind, value, text)
* text.status = #generated
* text.div = "<div xmlns=\"http://www.w3.org/1999/xhtml\">{text}</div>"
* identifier.system = "https://handfhirbridge.example/identifier/{kind}"
* identifier.value = "{value}"
* status = #final
* category[survey] = $category#survey
* insert Subject
* effectiveDateTime = "2026-03-02T09:05:00+01:00"
* performer.type = "Practitioner"
* performer.identifier.system = "https://north-clinic.example/staff"
* performer.identifier.value = "T-1"
