Instance: hfb-22-passes
InstanceOf: HfbDominance
Usage: #example
Title: "Left handed, left tested as dominant"
* insert Dominance
* valueCodeableConcept = $sct#87683000
* component[testedAsDominant].valueCodeableConcept = $hand#left
