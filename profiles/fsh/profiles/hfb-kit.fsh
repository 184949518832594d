Profile: HfbKit
Parent: Device
Id: hfb-kit
Title: "Kit"
Description: "The box of materials used, where a clinic tells its kits apart."
* text 1..1 MS
* identifier 1..1 MS
* identifier.system 1..1
* identifier.system = "https://handfhirbridge.example/identifier/kit"
* identifier.value 1..1
* serialNumber MS
* deviceName 1..1 MS
