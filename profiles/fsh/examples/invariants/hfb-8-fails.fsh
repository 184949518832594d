Instance: hfb-8-fails
InstanceOf: HfbTrial
Usage: #example
Title: "Percent of no norm"
* insert LeftCardTurning
* insert Completed(4.20)
* component[percentOfNorm].valueQuantity.value = 105.0
* component[percentOfNorm].valueQuantity.unit = "%"
