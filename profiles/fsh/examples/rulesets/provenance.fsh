RuleSet: Provenance
* meta.tag[session].system = "https://handfhirbridge.example/identifier/session"
* meta.tag[session].code = #north-clinic/S-1
* text.status = #generated
* text.div = "<div xmlns=\"http://www.w3.org/1999/xhtml\">Delivery of session S-1</div>"
* target = Reference(DiagnosticReport/example-report)
* recorded = "2026-03-02T09:45:00+01:00"
* activity = $operation#CREATE
* agent[author].type = $participant#author
* agent[author].role = $performer-role#occupational-therapist
* agent[author].who.type = "Practitioner"
* agent[author].who.identifier.system = "https://north-clinic.example/staff"
* agent[author].who.identifier.value = "T-1"
* agent[author].onBehalfOf.type = "Organization"
* agent[author].onBehalfOf.identifier.system = "https://handfhirbridge.example/identifier/site"
* agent[author].onBehalfOf.identifier.value = "north-clinic"
* agent[assembler].type = $participant#assembler
* agent[assembler].who = Reference(Device/example-software)
* agent[assembler].onBehalfOf.type = "Organization"
* agent[assembler].onBehalfOf.identifier.system = "https://handfhirbridge.example/identifier/site"
* agent[assembler].onBehalfOf.identifier.value = "north-clinic"
* entity.role = #source
* entity.what.identifier.system = "https://handfhirbridge.example/identifier/session"
* entity.what.identifier.value = "north-clinic/S-1"
* entity.what.display = "sha-256:e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
