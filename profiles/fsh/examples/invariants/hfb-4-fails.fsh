Instance: hfb-4-fails
InstanceOf: HfbTrial
Usage: #example
Title: "Cancelled, with a time"
* insert LeftCardTurning
* insert Completed(4.20)
* status = #cancelled
