Instance: hfb-23-fails
InstanceOf: HfbTrial
Usage: #example
Title: "A source of a time that there is not"
* insert LeftCardTurning
* insert Declined
* extension[timeSource].valueCode = #manual
