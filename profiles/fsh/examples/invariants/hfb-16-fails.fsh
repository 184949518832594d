Instance: hfb-16-fails
InstanceOf: HfbSetupResponse
Usage: #example
Title: "A cap of 0 s"
* insert SetupResponse
* item[12].linkId = "cap-seconds"
* item[12].answer.valueQuantity.value = 0
