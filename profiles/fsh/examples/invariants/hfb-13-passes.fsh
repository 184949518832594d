Instance: hfb-13-passes
InstanceOf: HfbTrial
Usage: #example
Title: "From 2.80 s to 5.20 s"
* insert LeftCardTurning
* insert Completed(4.20)
* insert Norm(0, female, 4.00, 0.60, 2.80, 5.20)
