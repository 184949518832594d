Instance: hfb-1-passes
InstanceOf: HfbTrial
Usage: #example
Title: "A time"
* insert LeftCardTurning
* insert Completed(4.20)
