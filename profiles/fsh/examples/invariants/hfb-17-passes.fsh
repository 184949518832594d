Instance: hfb-17-passes
InstanceOf: HfbDominance
Usage: #example
Title: "Ambidextrous, left tested as dominant"
* insert Dominance
* valueCodeableConcept = $sct#23088002
* component[testedAsDominant].valueCodeableConcept = $hand#left
