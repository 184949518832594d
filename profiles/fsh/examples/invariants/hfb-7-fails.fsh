Instance: hfb-7-fails
InstanceOf: HfbTrial
Usage: #example
Title: "Judged although both norms are shown"
* insert LeftCardTurning
* insert Completed(4.20)
* interpretation = $interpretation#H
* component[zScore].valueQuantity.value = 3
* component[zScore].valueQuantity.unit = "z"
* insert Norm(0, female, 4.00, 0.60, 2.80, 5.20)
* insert Norm(1, male, 4.50, 0.80, 2.90, 6.10)
