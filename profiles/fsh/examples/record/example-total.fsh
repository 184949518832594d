Instance: example-total
InstanceOf: HfbTotal
Usage: #example
Title: "Six-task total"
* insert LeftTotal
* insert SixTrials
* valueQuantity.value = 38.70
* valueQuantity.unit = "s"
