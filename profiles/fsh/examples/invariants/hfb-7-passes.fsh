Instance: hfb-7-passes
InstanceOf: HfbTrial
Usage: #example
Title: "Judged, with the z-score"
* insert LeftCardTurning
* insert Completed(4.20)
* insert Norm(0, female, 4.00, 0.60, 2.80, 5.20)
* insert Judged(N, 0.33, 105.0)
