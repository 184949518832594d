Instance: hfb-22-fails
InstanceOf: HfbDominance
Usage: #example
Title: "Left handed, right tested as dominant"
* insert Dominance
* valueCodeableConcept = $sct#87683000
* component[testedAsDominant].valueCodeableConcept = $hand#right
