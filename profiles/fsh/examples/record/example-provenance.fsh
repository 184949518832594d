Instance: example-provenance
InstanceOf: HfbProvenance
Usage: #example
Title: "Provenance"
* insert Provenance
