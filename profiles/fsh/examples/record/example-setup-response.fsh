Instance: example-setup-response
InstanceOf: HfbSetupResponse
Usage: #example
Title: "Set-up response"
* insert SetupResponse
