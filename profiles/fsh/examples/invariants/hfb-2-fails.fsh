Instance: hfb-2-fails
InstanceOf: HfbTrial
Usage: #example
Title: "A bound that no interpretation marks"
* insert LeftCardTurning
* insert Completed(4.20)
* extension[outcome].valueCode = #stopped-at-cap
* valueQuantity.comparator = #>
