Instance: hfb-11-passes
InstanceOf: HfbTrial
Usage: #example
Title: "Declined, said so"
* insert LeftCardTurning
* insert Declined
