Instance: hfb-6-fails
InstanceOf: HfbTrial
Usage: #example
Title: "Code says left, body site says right"
* insert LeftCardTurning
* insert Completed(4.20)
* bodySite = $sct#78791008
