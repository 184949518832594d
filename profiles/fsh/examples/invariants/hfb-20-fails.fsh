Instance: hfb-20-fails
InstanceOf: HfbReport
Usage: #example
Title: "Demonstration report whose conclusion does not say so"
* meta.security = $act-reason#HTEST
* insert Report
* insert ReportNorm(recalled, true)
