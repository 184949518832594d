Instance: hfb-2-fails
InstanceOf: HfbTrial
Usage: #example
Title: "A bound interpreted as an ordinary slow time"
* insert LeftCardTurning
* insert StoppedAtCap
* interpretation = $interpretation#H
