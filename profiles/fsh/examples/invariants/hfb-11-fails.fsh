Instance: hfb-11-fails
InstanceOf: HfbTrial
Usage: #example
Title: "Declined, but said to be not performed"
* insert LeftCardTurning
* insert Declined
* dataAbsentReason = $absent#not-performed
