Instance: hfb-19-fails
InstanceOf: HfbSetupResponse
Usage: #example
Title: "Revision 2, marked as the first version"
* insert SetupResponse
* extension[revision].valuePositiveInt = 2
