Instance: hfb-9-fails
InstanceOf: HfbTrial
Usage: #example
Title: "Slow at z 0.33"
* insert LeftCardTurning
* insert Completed(4.20)
* insert Norm(0, female, 4.00, 0.60, 2.80, 5.20)
* insert Judged(H, 0.33, 105.0)
