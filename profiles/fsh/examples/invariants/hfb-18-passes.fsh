Instance: hfb-18-passes
InstanceOf: HfbTrial
Usage: #example
Title: "Time with offset"
* insert LeftCardTurning
* insert Completed(4.20)
