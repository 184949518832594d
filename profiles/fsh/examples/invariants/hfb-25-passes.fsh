Instance: hfb-25-passes
InstanceOf: HfbTrial
Usage: #example
Title: "The address of a patient"
* insert LeftCardTurning
* insert Completed(4.20)
* subject.reference = "Patient/P-0001"
