Instance: hfb-1-fails
InstanceOf: HfbTrial
Usage: #example
Title: "Neither a time nor a reason why there is none"
* insert LeftCardTurning
* extension[outcome].valueCode = #unable
