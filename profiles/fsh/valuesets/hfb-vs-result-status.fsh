ValueSet: HfbResultStatusVS
Id: hfb-vs-result-status
Title: "Status of a result"
Description: "Nothing is sent before it is final."
* ^experimental = false
* http://hl7.org/fhir/observation-status#final "Final"
* http://hl7.org/fhir/observation-status#amended "Amended"
* http://hl7.org/fhir/observation-status#corrected "Corrected"
* http://hl7.org/fhir/observation-status#cancelled "Cancelled"
* http://hl7.org/fhir/observation-status#entered-in-error "Entered in Error"
