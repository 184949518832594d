Instance: hfb-setup
InstanceOf: Questionnaire
Usage: #definition
Title: "Set-up of a seven-task session"
Description: "How the table was laid, which precautions were asked, and what else is needed to judge the times or to repeat the session."
* url = "https://handfhirbridge.example/fhir/Questionnaire/hfb-setup"
* version = "0.1.0"
* name = "HfbSetup"
* title = "Set-up of a seven-task session"
* status = #active
* experimental = false
* subjectType = #Patient
* publisher = "HandFhirBridge"
* description = "How the table was laid, which precautions were asked, and what else is needed to judge the times or to repeat the session."
* purpose = "Filled by the bridge from a finished session, so that a reader of the record knows the conditions under which the times were taken."
* item[+].linkId = "instrument-id"
* item[=].text = "Instrument"
* item[=].type = #string
* item[=].required = true
* item[+].linkId = "instrument-version"
* item[=].text = "Version of the instrument"
* item[=].type = #string
* item[=].required = true
* item[+].linkId = "session-started-at"
* item[=].text = "Begin of the session"
* item[=].type = #dateTime
* item[=].required = true
* item[+].linkId = "session-ended-at"
* item[=].text = "End of the session"
* item[=].type = #dateTime
* item[=].required = true
* item[+].linkId = "performer-role"
* item[=].text = "Capacity of the person who tested"
* item[=].type = #choice
* item[=].required = true
* item[=] insert RoleOptions
* item[+].linkId = "family-name"
* item[=].text = "Family name of the patient"
* item[=].type = #string
* item[=].required = true
* item[+].linkId = "birth-date"
* item[=].text = "Birth date of the patient"
* item[=].type = #date
* item[=].required = true
* item[+].linkId = "sex-for-norm"
* item[=].text = "Sex for the norm (which norm applies; not gender identity)"
* item[=].type = #choice
* item[=].required = true
* item[=] insert SexOptions
* insert SetupItems
* item[+].linkId = "comment"
* item[=].text = "Remarks on the session as a whole"
* item[=].type = #text
* item[=].required = false
