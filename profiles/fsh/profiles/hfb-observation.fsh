Profile: HfbObservation
Parent: Observation
Id: hfb-observation
Title: "Observation of a hand function test"
Description: "What all observations of a session share: one own identifier, one code, one patient found by identifier, a time with offset, and who tested."
* ^abstract = true
* text 1..1 MS
* extension contains $status-reason named statusReason 0..1 MS
* identifier 1..1 MS
* identifier.system 1..1
* identifier.value 1..1
* status MS
* status from HfbResultStatusVS (required)
* category 1..* MS
* category ^slicing.discriminator.type = #pattern
* category ^slicing.discriminator.path = "$this"
* category ^slicing.rules = #open
* category contains survey 1..1 and exam 0..1 and functionalStatus 0..1 and icf 0..1
* category[survey] = $category#survey
* category[exam] = $category#exam
* category[functionalStatus] = $us-core-category#functional-status
* category[icf] = $icf#d440
* code MS
* code.coding 1..1
* subject 1..1 MS
* subject only Reference(Patient)
* subject obeys hfb-25
* subject.type 1..1
* subject.type = "Patient"
* subject.identifier 1..1
* subject.identifier.system 1..1
* subject.identifier.value 1..1
* encounter MS
* encounter obeys hfb-15
* effective[x] 1..1 MS
* effective[x] only dateTime
* effective[x] obeys hfb-18
* performer 1..* MS
* performer only Reference(Practitioner or PractitionerRole or Organization)
* performer obeys hfb-15
