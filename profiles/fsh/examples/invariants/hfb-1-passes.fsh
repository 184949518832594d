Instance: hfb-1-passes
InstanceOf: HfbTrial
Usage: #example
Title: "A time alone"
* insert LeftCardTurning
* insert Completed(4.20)
