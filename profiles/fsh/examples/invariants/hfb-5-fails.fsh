Instance: hfb-5-fails
InstanceOf: HfbTrial
Usage: #example
Title: "0 s"
* insert LeftCardTurning
* insert Completed(0)
