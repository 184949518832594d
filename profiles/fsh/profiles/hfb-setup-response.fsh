Profile: HfbSetupResponse
Parent: QuestionnaireResponse
Id: hfb-setup-response
Title: "Set-up response"
Description: "How the table was laid, which precautions were asked, and what else is needed to judge the times or to repeat the session."
* obeys hfb-16 and hfb-19
* text 1..1 MS
* extension contains HfbSessionRevision named revision 1..1 MS
* identifier 1..1 MS
* identifier.system 1..1
* identifier.system = "https://handfhirbridge.example/identifier/setup-response"
* identifier.value 1..1
* questionnaire 1..1 MS
* questionnaire = "https://handfhirbridge.example/fhir/Questionnaire/hfb-setup|0.1.0"
* status MS
* status from HfbResponseStatusVS (required)
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
* authored 1..1 MS
* author 1..1 MS
* author only Reference(Practitioner or PractitionerRole or Organization)
* author obeys hfb-15
* source MS
* source obeys hfb-15
* item 1..* MS
