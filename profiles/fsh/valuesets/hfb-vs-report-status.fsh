ValueSet: HfbReportStatusVS
Id: hfb-vs-report-status
Title: "Status of a report"
Description: "A report is sent once all of its results are in a final state."
* ^experimental = false
* http://hl7.org/fhir/diagnostic-report-status#final "Final"
* http://hl7.org/fhir/diagnostic-report-status#amended "Amended"
* http://hl7.org/fhir/diagnostic-report-status#corrected "Corrected"
* http://hl7.org/fhir/diagnostic-report-status#entered-in-error "Entered in Error"
