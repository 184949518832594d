Extension: HfbSessionRevision
Id: hfb-ext-session-revision
Title: "Revision of the session"
Description: "1 for the first version of a session, n + 1 for its correction."
* ^context[0].type = #element
* ^context[0].expression = "DiagnosticReport"
* ^context[1].type = #element
* ^context[1].expression = "QuestionnaireResponse"
* value[x] only positiveInt
* value[x] 1..1
