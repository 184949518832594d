Instance: hfb-25-fails
InstanceOf: HfbTrial
Usage: #example
Title: "The address of a group"
* insert LeftCardTurning
* insert Completed(4.20)
* subject.reference = "Group/G-1"
