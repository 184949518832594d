Instance: example-trial-declined
InstanceOf: HfbTrial
Usage: #example
Title: "Declined trial"
* insert LeftCardTurning
* insert Declined
* dataAbsentReason.text = "Declined by the patient"
