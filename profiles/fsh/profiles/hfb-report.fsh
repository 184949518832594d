Profile: HfbReport
Parent: DiagnosticReport
Id: hfb-report
Title: "Report of a session"
Description: "All results of one sitting: two panels, four totals, fourteen trials and, where it was established, the handedness. Supports and does not replace the judgement of a licensed clinician."
* obeys hfb-20
* text 1..1 MS
* extension contains
    HfbSessionRevision named revision 1..1 MS and
    HfbNormSource named normSource 0..* MS and
    HfbSignedConclusion named signedConclusion 0..1 MS and
    $status-reason named statusReason 0..1 MS and
    $supporting-info named setupResponse 1..1 MS
* extension[setupResponse].value[x] only Reference(QuestionnaireResponse)
* identifier 1..1 MS
* identifier.system 1..1
* identifier.system = "https://handfhirbridge.example/identifier/report"
* identifier.value 1..1
* basedOn MS
* basedOn obeys hfb-15
* status MS
* status from HfbReportStatusVS (required)
* category 1..* MS
* category ^slicing.discriminator.type = #pattern
* category ^slicing.discriminator.path = "$this"
* category ^slicing.rules = #open
* category contains occupationalTherapy 1..1
* category[occupationalTherapy] = $service-section#OT
* code MS
* code = $measure#seven-task-report
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
* effective[x] only Period
* effective[x].start 1..1
* effective[x].end 1..1
* issued 1..1 MS
* performer 1..* MS
* performer only Reference(Practitioner or PractitionerRole or Organization)
* performer obeys hfb-15
* resultsInterpreter MS
* resultsInterpreter only Reference(Practitioner or PractitionerRole or Organization)
* resultsInterpreter obeys hfb-15
* result 20..21 MS
* conclusion 1..1 MS
* presentedForm MS
