Instance: hfb-18-fails
InstanceOf: HfbTrial
Usage: #example
Title: "A date alone"
* insert LeftCardTurning
* insert Completed(4.20)
* effectiveDateTime = "2026-03-02"
