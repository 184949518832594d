RuleSet: RoleOptions
* answerOption[+].valueCoding = $performer-role#occupational-therapist "Occupational therapist"
* answerOption[+].valueCoding = $performer-role#hand-therapist "Hand therapist"
* answerOption[+].valueCoding = $performer-role#physical-therapist "Physical therapist"
* answerOption[+].valueCoding = $performer-role#occupational-therapy-assistant "Occupational therapy assistant"
* answerOption[+].valueCoding = $performer-role#student-under-supervision "Student under supervision"
* answerOption[+].valueCoding = $performer-role#other "Other"
