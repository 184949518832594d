Instance: example-provenance-withdrawn
InstanceOf: HfbProvenance
Usage: #example
Title: "Provenance of a withdrawal"
* insert Provenance
* recorded = "2026-03-03T08:00:00+01:00"
* activity = $operation#NULLIFY
* reason.text = "Entered in the wrong chart."
* agent[2].type = $participant#performer
* agent[2].who.type = "Practitioner"
* agent[2].who.display = "R. Okafor"
