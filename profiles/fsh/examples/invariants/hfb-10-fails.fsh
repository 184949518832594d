Instance: hfb-10-fails
InstanceOf: HfbTrial
Usage: #example
Title: "Completed with a bound"
* insert LeftCardTurning
* insert StoppedAtCap
* extension[outcome].valueCode = #completed
