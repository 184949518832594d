Instance: hfb-3-passes
InstanceOf: HfbTrial
Usage: #example
Title: "A bound beside its norm"
* insert LeftCardTurning
* insert StoppedAtCap
* insert Norm(0, female, 4.00, 0.60, 2.80, 5.20)
