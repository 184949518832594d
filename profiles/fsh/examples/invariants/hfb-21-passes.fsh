Instance: hfb-21-passes
InstanceOf: HfbProvenance
Usage: #example
Title: "Digest named"
* insert Provenance
