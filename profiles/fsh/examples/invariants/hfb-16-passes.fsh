Instance: hfb-16-passes
InstanceOf: HfbSetupResponse
Usage: #example
Title: "A cap of 120 s"
* insert SetupResponse
