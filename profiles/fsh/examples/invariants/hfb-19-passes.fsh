Instance: hfb-19-passes
InstanceOf: HfbSetupResponse
Usage: #example
Title: "Revision 2, amended"
* insert SetupResponse
* extension[revision].valuePositiveInt = 2
* status = #amended
