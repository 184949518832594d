Instance: example-dominance
InstanceOf: HfbDominance
Usage: #example
Title: "Right-handed"
* insert Dominance
* valueCodeableConcept = $sct#46669005
* component[testedAsDominant].valueCodeableConcept = $hand#right
