Instance: example-report-withdrawn
InstanceOf: HfbReport
Usage: #example
Title: "Report, withdrawn"
* insert Report
* insert ReportNorm(site-double-entry, false)
* text.div = "<div xmlns=\"http://www.w3.org/1999/xhtml\"><p><b>WITHDRAWN. Report of session S-1. Reason: entered in the wrong chart.</b></p></div>"
* extension[revision].valuePositiveInt = 2
* extension[statusReason].valueCodeableConcept.text = "Entered in the wrong chart."
* status = #entered-in-error
* issued = "2026-03-03T08:00:00+01:00"
* conclusion = "WITHDRAWN. This report was withdrawn and must not be used. Reason: entered in the wrong chart."
