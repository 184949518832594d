Instance: hfb-5-passes
InstanceOf: HfbTrial
Usage: #example
Title: "4.20 s"
* insert LeftCardTurning
* insert Completed(4.20)
