Instance: hfb-9-passes
InstanceOf: HfbTrial
Usage: #example
Title: "Slow at z 3.00"
* insert LeftCardTurning
* insert Completed(5.80)
* insert Norm(0, female, 4.00, 0.60, 2.80, 5.20)
* insert Judged(H, 3.00, 145.0)
