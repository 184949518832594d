Instance: hfb-20-passes
InstanceOf: HfbReport
Usage: #example
Title: "Demonstration report, marked"
* meta.security = $act-reason#HTEST
* insert Report
* insert ReportNorm(recalled, true)
* conclusion = "DEMONSTRATION. Not a diagnosis."
