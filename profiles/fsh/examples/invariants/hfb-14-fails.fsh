Instance: hfb-14-fails
InstanceOf: HfbTotal
Usage: #example
Title: "Sum of one trial"
* insert LeftTotal
* valueQuantity.value = 38.70
* valueQuantity.unit = "s"
* derivedFrom = Reference(Observation/example-card-turning-left)
