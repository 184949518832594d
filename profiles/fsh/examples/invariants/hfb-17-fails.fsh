Instance: hfb-17-fails
InstanceOf: HfbDominance
Usage: #example
Title: "Ambidextrous, no hand tested as dominant"
* insert Dominance
* valueCodeableConcept = $sct#23088002
