Instance: hfb-3-fails
InstanceOf: HfbTrial
Usage: #example
Title: "A percent of the norm made from a bound"
* insert LeftCardTurning
* insert StoppedAtCap
* insert Norm(0, female, 4.00, 0.60, 2.80, 5.20)
* component[percentOfNorm].valueQuantity.value = 3000.0
* component[percentOfNorm].valueQuantity.unit = "%"
