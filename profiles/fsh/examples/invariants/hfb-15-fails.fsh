Instance: hfb-15-fails
InstanceOf: HfbTrial
Usage: #example
Title: "A performer by name alone"
* insert Completed(4.20)
* performer.type = "Practitioner"
* performer.display = "A therapist"
* text.status = #generated
* text.div = "<div xmlns=\"http://www.w3.org/1999/xhtml\">Card turning, left hand</div>"
* identifier.system = "https://handfhirbridge.example/identifier/trial"
* identifier.value = "north-clinic/S-1/card-turning/left"
* status = #final
* category[survey] = $category#survey
* insert LeftHandAttempt
* insert Subject
* code = $measure#card-turning-left "Card turning, left hand"
* effectiveDateTime = "2026-03-02T09:05:00+01:00"
