Instance: hfb-21-fails
InstanceOf: HfbProvenance
Usage: #example
Title: "No digest"
* insert Provenance
* entity.what.display = "session document"
