Instance: hfb-6-passes
InstanceOf: HfbTrial
Usage: #example
Title: "Left hand, said by the laterality extension"
* insert LeftCardTurning
* insert Completed(4.20)
* bodySite = $sct#85562004
* bodySite.extension[laterality].valueCode = #left
