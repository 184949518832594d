Instance: hfb-24-fails
InstanceOf: HfbTrial
Usage: #example
Title: "No standard deviation"
* insert LeftCardTurning
* insert Completed(4.20)
* insert NormWithoutDeviation(0, female, 4.00, 0.60, 2.80, 5.20)
