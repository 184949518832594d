Instance: hfb-2-passes
InstanceOf: HfbTrial
Usage: #example
Title: "A bound, off scale"
* insert LeftCardTurning
* insert StoppedAtCap
