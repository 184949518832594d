Instance: hfb-10-passes
InstanceOf: HfbTrial
Usage: #example
Title: "Completed with a plain time"
* insert LeftCardTurning
* insert Completed(4.20)
