Instance: example-kit
InstanceOf: HfbKit
Usage: #example
Title: "Kit"
* text.status = #generated
* text.div = "<div xmlns=\"http://www.w3.org/1999/xhtml\">Kit K-7</div>"
* identifier.system = "https://handfhirbridge.example/identifier/kit"
* identifier.value = "north-clinic/K-7"
* serialNumber = "K-7"
* deviceName.name = "Kit 7"
* deviceName.type = #user-friendly-name
