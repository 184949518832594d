ValueSet: HfbPerformerRoleVS
Id: hfb-vs-performer-role
Title: "Performer roles"
Description: "Every role."
* ^experimental = false
* $performer-role#occupational-therapist "Occupational therapist"
* $performer-role#hand-therapist "Hand therapist"
* $performer-role#physical-therapist "Physical therapist"
* $performer-role#occupational-therapy-assistant "Occupational therapy assistant"
* $performer-role#student-under-supervision "Student under supervision"
* $performer-role#other "Other"
