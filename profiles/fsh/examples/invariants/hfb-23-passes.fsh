Instance: hfb-23-passes
InstanceOf: HfbTrial
Usage: #example
Title: "A time from the timer"
* insert LeftCardTurning
* insert Completed(4.20)
