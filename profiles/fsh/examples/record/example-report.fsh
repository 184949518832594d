Instance: example-report
InstanceOf: HfbReport
Usage: #example
Title: "Report"
* insert Report
* insert ReportNorm(site-double-entry, false)
