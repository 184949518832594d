RuleSet: Report
* text.status = #generated
* text.div = "<div xmlns=\"http://www.w3.org/1999/xhtml\">Report of session S-1</div>"
* extension[revision].valuePositiveInt = 1
* extension[setupResponse].valueReference = Reference(QuestionnaireResponse/example-setup-response)
* identifier.system = "https://handfhirbridge.example/identifier/report"
* identifier.value = "north-clinic/S-1"
* status = #final
* category[occupationalTherapy] = $service-section#OT
* code = $measure#seven-task-report "Seven-task hand function test report"
* insert Subject
* effectivePeriod.start = "2026-03-02T09:05:00+01:00"
* effectivePeriod.end = "2026-03-02T09:40:00+01:00"
* issued = "2026-03-02T09:45:00+01:00"
* performer[0].type = "Practitioner"
* performer[0].identifier.system = "https://north-clinic.example/staff"
* performer[0].identifier.value = "T-1"
* performer[1].type = "Organization"
* performer[1].identifier.system = "https://handfhirbridge.example/identifier/site"
* performer[1].identifier.value = "north-clinic"
* insert Results
* conclusion = "Card turning with the left hand took 4.20 s. Supports and does not replace clinical judgement; not a diagnosis."
