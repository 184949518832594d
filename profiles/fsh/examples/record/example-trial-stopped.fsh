Instance: example-trial-stopped
InstanceOf: HfbTrial
Usage: #example
Title: "Trial stopped at the cap"
* insert LeftCardTurning
* insert StoppedAtCap
* insert Norm(0, female, 4.00, 0.60, 2.80, 5.20)
