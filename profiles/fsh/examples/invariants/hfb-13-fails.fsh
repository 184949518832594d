Instance: hfb-13-fails
InstanceOf: HfbTrial
Usage: #example
Title: "From 5.20 s to 2.80 s"
* insert LeftCardTurning
* insert Completed(4.20)
* insert Norm(0, female, 4.00, 0.60, 5.20, 2.80)
