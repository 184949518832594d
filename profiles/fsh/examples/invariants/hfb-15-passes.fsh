Instance: hfb-15-passes
InstanceOf: HfbTrial
Usage: #example
Title: "A performer by identifier"
* insert LeftCardTurning
* insert Completed(4.20)
