CodeSystem: HfbPerformerRoleCS
Id: hfb-cs-performer-role
Title: "Performer roles"
Description: "In what capacity somebody gave the test. This is a local code system of HandFhirBridge: no published code system was found that holds these meanings."
* ^caseSensitive = true
* ^experimental = false
* #occupational-therapist "Occupational therapist"
* #hand-therapist "Hand therapist"
* #physical-therapist "Physical therapist"
* #occupational-therapy-assistant "Occupational therapy assistant"
* #student-under-supervision "Student under supervision"
* #other "Other"
