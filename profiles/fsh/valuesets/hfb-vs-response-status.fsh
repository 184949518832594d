ValueSet: HfbResponseStatusVS
Id: hfb-vs-response-status
Title: "Status of a set-up response"
Description: "Complete, corrected or withdrawn."
* ^experimental = false
* http://hl7.org/fhir/questionnaire-answers-status#completed "Completed"
* http://hl7.org/fhir/questionnaire-answers-status#amended "Amended"
* http://hl7.org/fhir/questionnaire-answers-status#entered-in-error "Entered in Error"
