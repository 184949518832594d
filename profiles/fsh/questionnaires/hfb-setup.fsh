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
* item[=].answerOption[+].valueCoding = $performer-role#occupational-therapist "Occupational therapist"
* item[=].answerOption[+].valueCoding = $performer-role#hand-therapist "Hand therapist"
* item[=].answerOption[+].valueCoding = $performer-role#physical-therapist "Physical therapist"
* item[=].answerOption[+].valueCoding = $performer-role#occupational-therapy-assistant "Occupational therapy assistant"
* item[=].answerOption[+].valueCoding = $performer-role#student-under-supervision "Student under supervision"
* item[=].answerOption[+].valueCoding = $performer-role#other "Other"
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
* item[=].answerOption[+].valueCoding = $gender#female "Female"
* item[=].answerOption[+].valueCoding = $gender#male "Male"
* item[=].answerOption[+].valueCoding = $gender#unknown "Unknown: show both norms, judge none"
* item[+].linkId = "precaution"
* item[=].text = "Precautions asked before the test"
* item[=].type = #group
* item[=].required = false
* item[=].repeats = true
* item[=].item[+].linkId = "precaution-asked"
* item[=].item[=].text = "Precaution"
* item[=].item[=].type = #choice
* item[=].item[=].required = true
* item[=].item[=].answerOption[+].valueCoding = $precaution#lifting-restriction "Lifting restriction"
* item[=].item[=].answerOption[+].valueCoding = $precaution#recent-tendon-repair "Recent tendon repair"
* item[=].item[=].answerOption[+].valueCoding = $precaution#unhealed-fracture "Unhealed fracture"
* item[=].item[=].answerOption[+].valueCoding = $precaution#open-wound "Open wound"
* item[=].item[=].answerOption[+].valueCoding = $precaution#recent-nerve-or-joint-surgery "Recent nerve or joint surgery"
* item[=].item[=].answerOption[+].valueCoding = $precaution#pain-limits-use "Pain limits use of the hand"
* item[=].item[+].linkId = "precaution-answer"
* item[=].item[=].text = "Does it apply?"
* item[=].item[=].type = #choice
* item[=].item[=].required = true
* item[=].item[=].answerOption[+].valueCoding = $setup#yes "Yes"
* item[=].item[=].answerOption[+].valueCoding = $setup#no "No"
* item[=].item[=].answerOption[+].valueCoding = $setup#not-known "Not known"
* item[=].item[+].linkId = "precaution-rules-out"
* item[=].item[=].text = "Tasks the therapist therefore leaves out"
* item[=].item[=].type = #choice
* item[=].item[=].enableWhen[+].question = "precaution-answer"
* item[=].item[=].enableWhen[=].operator = #!=
* item[=].item[=].enableWhen[=].answerCoding = $setup#no
* item[=].item[=].required = false
* item[=].item[=].repeats = true
* item[=].item[=].answerOption[+].valueCoding = $task#writing "Writing"
* item[=].item[=].answerOption[+].valueCoding = $task#card-turning "Card turning"
* item[=].item[=].answerOption[+].valueCoding = $task#small-common-objects "Picking up small common objects"
* item[=].item[=].answerOption[+].valueCoding = $task#simulated-feeding "Simulated feeding"
* item[=].item[=].answerOption[+].valueCoding = $task#stacking-checkers "Stacking checkers"
* item[=].item[=].answerOption[+].valueCoding = $task#large-light-objects "Moving large light objects"
* item[=].item[=].answerOption[+].valueCoding = $task#large-heavy-objects "Moving large heavy objects"
* item[=].item[+].linkId = "precaution-hands"
* item[=].item[=].text = "Hands it concerns (none chosen: both)"
* item[=].item[=].type = #choice
* item[=].item[=].required = false
* item[=].item[=].repeats = true
* item[=].item[=].answerOption[+].valueCoding = $hand#left "Left hand"
* item[=].item[=].answerOption[+].valueCoding = $hand#right "Right hand"
* item[=].item[+].linkId = "precaution-note"
* item[=].item[=].text = "Remark"
* item[=].item[=].type = #string
* item[=].item[=].required = false
* item[+].linkId = "glasses"
* item[=].text = "Glasses for near work"
* item[=].type = #choice
* item[=].required = true
* item[=].answerOption[+].valueCoding = $setup#worn "Worn"
* item[=].answerOption[+].valueCoding = $setup#not-needed "Not needed"
* item[=].answerOption[+].valueCoding = $setup#needed-not-worn "Needed but not worn"
* item[+].linkId = "template-board"
* item[=].text = "Was a template board on the table?"
* item[=].type = #boolean
* item[=].required = true
* item[+].linkId = "cap-in-force"
* item[=].text = "Was there a longest time allowed for each trial?"
* item[=].type = #boolean
* item[=].required = true
* item[+].linkId = "cap-seconds"
* item[=].extension[+].url = "http://hl7.org/fhir/StructureDefinition/questionnaire-unitOption"
* item[=].extension[=].valueCoding = $ucum#s "s"
* item[=].text = "Longest time allowed"
* item[=].type = #quantity
* item[=].enableWhen[+].question = "cap-in-force"
* item[=].enableWhen[=].operator = #=
* item[=].enableWhen[=].answerBoolean = true
* item[=].required = true
* item[+].linkId = "table-height"
* item[=].extension[+].url = "http://hl7.org/fhir/StructureDefinition/questionnaire-unitOption"
* item[=].extension[=].valueCoding = $ucum#[in_i] "in"
* item[=].extension[+].url = "http://hl7.org/fhir/StructureDefinition/questionnaire-unitOption"
* item[=].extension[=].valueCoding = $ucum#cm "cm"
* item[=].text = "Height of the table top"
* item[=].type = #quantity
* item[=].required = false
* item[+].linkId = "chair-height"
* item[=].extension[+].url = "http://hl7.org/fhir/StructureDefinition/questionnaire-unitOption"
* item[=].extension[=].valueCoding = $ucum#[in_i] "in"
* item[=].extension[+].url = "http://hl7.org/fhir/StructureDefinition/questionnaire-unitOption"
* item[=].extension[=].valueCoding = $ucum#cm "cm"
* item[=].text = "Height of the seat"
* item[=].type = #quantity
* item[=].required = false
* item[+].linkId = "edge-to-items"
* item[=].extension[+].url = "http://hl7.org/fhir/StructureDefinition/questionnaire-unitOption"
* item[=].extension[=].valueCoding = $ucum#[in_i] "in"
* item[=].extension[+].url = "http://hl7.org/fhir/StructureDefinition/questionnaire-unitOption"
* item[=].extension[=].valueCoding = $ucum#cm "cm"
* item[=].text = "From the table's front edge to the items"
* item[=].type = #quantity
* item[=].required = false
* item[+].linkId = "between-items"
* item[=].extension[+].url = "http://hl7.org/fhir/StructureDefinition/questionnaire-unitOption"
* item[=].extension[=].valueCoding = $ucum#[in_i] "in"
* item[=].extension[+].url = "http://hl7.org/fhir/StructureDefinition/questionnaire-unitOption"
* item[=].extension[=].valueCoding = $ucum#cm "cm"
* item[=].text = "Between the items"
* item[=].type = #quantity
* item[=].required = false
* item[+].linkId = "item-replaced"
* item[=].text = "Materials that were not the standard ones"
* item[=].type = #group
* item[=].required = false
* item[=].repeats = true
* item[=].item[+].linkId = "item-replaced-item"
* item[=].item[=].text = "Standard material"
* item[=].item[=].type = #choice
* item[=].item[=].required = true
* item[=].item[=].answerOption[+].valueCoding = $material#pen "Pen"
* item[=].item[=].answerOption[+].valueCoding = $material#writing-paper "Unruled writing paper"
* item[=].item[=].answerOption[+].valueCoding = $material#sentence-card "Sentence card"
* item[=].item[=].answerOption[+].valueCoding = $material#card-stand "Card stand"
* item[=].item[=].answerOption[+].valueCoding = $material#index-card "Index card"
* item[=].item[=].answerOption[+].valueCoding = $material#empty-can "Empty can"
* item[=].item[=].answerOption[+].valueCoding = $material#paper-clip "Paper clip"
* item[=].item[=].answerOption[+].valueCoding = $material#bottle-cap "Bottle cap"
* item[=].item[=].answerOption[+].valueCoding = $material#coin "Coin"
* item[=].item[=].answerOption[+].valueCoding = $material#kidney-bean "Kidney bean"
* item[=].item[=].answerOption[+].valueCoding = $material#teaspoon "Teaspoon"
* item[=].item[=].answerOption[+].valueCoding = $material#checker "Checker"
* item[=].item[=].answerOption[+].valueCoding = $material#large-can-empty "Large can, empty"
* item[=].item[=].answerOption[+].valueCoding = $material#large-can-filled "Large can, filled"
* item[=].item[=].answerOption[+].valueCoding = $material#board "Board"
* item[=].item[+].linkId = "item-replaced-by"
* item[=].item[=].text = "What lay there instead"
* item[=].item[=].type = #string
* item[=].item[=].required = true
* item[+].linkId = "comment"
* item[=].text = "Remarks on the session as a whole"
* item[=].type = #text
* item[=].required = false
