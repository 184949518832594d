Profile: HfbSoftware
Parent: Device
Id: hfb-software
Title: "Software"
Description: "The program that scored a session and made its resources."
* text 1..1 MS
* identifier 1..1 MS
* identifier.system 1..1
* identifier.system = "https://handfhirbridge.example/identifier/software"
* identifier.value 1..1
* deviceName 1..1 MS
* version 1..1 MS
