Instance: hfb-4-passes
InstanceOf: HfbTrial
Usage: #example
Title: "Cancelled, with the reason"
* insert LeftCardTurning
* insert Declined
