Instance: example-software
InstanceOf: HfbSoftware
Usage: #example
Title: "Software"
* text.status = #generated
* text.div = "<div xmlns=\"http://www.w3.org/1999/xhtml\">HandFhirBridge 0.1.0</div>"
* identifier.system = "https://handfhirbridge.example/identifier/software"
* identifier.value = "0.1.0"
* deviceName.name = "HandFhirBridge"
* deviceName.type = #model-name
* version.value = "0.1.0"
