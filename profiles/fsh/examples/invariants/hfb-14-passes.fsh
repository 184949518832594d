Instance: hfb-14-passes
InstanceOf: HfbTotal
Usage: #example
Title: "Sum of six trials"
* insert LeftTotal
* insert SixTrials
* valueQuantity.value = 38.70
* valueQuantity.unit = "s"
