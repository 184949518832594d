Instance: hfb-24-passes
InstanceOf: HfbTrial
Usage: #example
Title: "Mean and standard deviation"
* insert LeftCardTurning
* insert Completed(4.20)
* insert Norm(0, female, 4.00, 0.60, 2.80, 5.20)
