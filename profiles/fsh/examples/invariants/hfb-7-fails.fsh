Instance: hfb-7-fails
InstanceOf: HfbTrial
Usage: #example
Title: "Judged without a z-score"
* insert LeftCardTurning
* insert Completed(4.20)
* insert Norm(0, female, 4.00, 0.60, 2.80, 5.20)
* interpretation = $interpretation#N
