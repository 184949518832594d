Instance: hfb-1-fails
InstanceOf: HfbTrial
Usage: #example
Title: "A time and a reason why there is none"
* insert LeftCardTurning
* insert Completed(4.20)
* dataAbsentReason = $absent#not-performed
