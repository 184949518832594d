Instance: hfb-session
InstanceOf: Questionnaire
Usage: #definition
Title: "Seven-task session"
Description: "Everything that is recorded of one sitting of the seven-task timed hand-function test."
* url = "https://handfhirbridge.example/fhir/Questionnaire/hfb-session"
* version = "0.1.0"
* name = "HfbSession"
* title = "Seven-task session"
* status = #active
* experimental = false
* subjectType = #Patient
* publisher = "HandFhirBridge"
* description = "Everything that is recorded of one sitting of the seven-task timed hand-function test."
* purpose = "Lets any form filler record a session; the answers hold the same facts as a session document."
* item[+].linkId = "session-id"
* item[=].text = "Id of the session, unique at the site"
* item[=].type = #string
* item[=].required = true
* item[=].maxLength = 64
* item[+].linkId = "revision"
* item[=].text = "Revision (1 for the first version)"
* item[=].type = #integer
* item[=].required = true
* item[+].linkId = "site"
* item[=].text = "Id of the site"
* item[=].type = #string
* item[=].required = true
* item[=].maxLength = 64
* item[+].linkId = "instrument-id"
* item[=].text = "Instrument"
* item[=].type = #string
* item[=].required = true
* item[+].linkId = "instrument-version"
* item[=].text = "Version of the instrument"
* item[=].type = #string
* item[=].required = true
* item[+].linkId = "patient"
* item[=].text = "Patient"
* item[=].type = #group
* item[=].required = true
* item[=].item[+].linkId = "patient-identifier-system"
* item[=].item[=].text = "System of the identifier (a URI)"
* item[=].item[=].type = #string
* item[=].item[=].required = true
* item[=].item[+].linkId = "patient-identifier-value"
* item[=].item[=].text = "Identifier"
* item[=].item[=].type = #string
* item[=].item[=].required = true
* item[=].item[+].linkId = "family-name"
* item[=].item[=].text = "Family name of the patient"
* item[=].item[=].type = #string
* item[=].item[=].required = true
* item[=].item[+].linkId = "birth-date"
* item[=].item[=].text = "Birth date of the patient"
* item[=].item[=].type = #date
* item[=].item[=].required = true
* item[+].linkId = "performer"
* item[=].text = "Person who tested"
* item[=].type = #group
* item[=].required = true
* item[=].item[+].linkId = "performer-identifier-system"
* item[=].item[=].text = "System of the identifier (a URI)"
* item[=].item[=].type = #string
* item[=].item[=].required = true
* item[=].item[+].linkId = "performer-identifier-value"
* item[=].item[=].text = "Identifier"
* item[=].item[=].type = #string
* item[=].item[=].required = true
* item[=].item[+].linkId = "performer-name"
* item[=].item[=].text = "Name"
* item[=].item[=].type = #string
* item[=].item[=].required = true
* item[=].item[+].linkId = "performer-role"
* item[=].item[=].text = "Capacity of the person who tested"
* item[=].item[=].type = #choice
* item[=].item[=].required = true
* item[=].item[=].answerOption[+].valueCoding = $performer-role#occupational-therapist "Occupational therapist"
* item[=].item[=].answerOption[+].valueCoding = $performer-role#hand-therapist "Hand therapist"
* item[=].item[=].answerOption[+].valueCoding = $performer-role#physical-therapist "Physical therapist"
* item[=].item[=].answerOption[+].valueCoding = $performer-role#occupational-therapy-assistant "Occupational therapy assistant"
* item[=].item[=].answerOption[+].valueCoding = $performer-role#student-under-supervision "Student under supervision"
* item[=].item[=].answerOption[+].valueCoding = $performer-role#other "Other"
* item[+].linkId = "encounter"
* item[=].text = "Encounter"
* item[=].type = #group
* item[=].required = false
* item[=].item[+].linkId = "encounter-system"
* item[=].item[=].text = "System of the identifier (a URI)"
* item[=].item[=].type = #string
* item[=].item[=].required = true
* item[=].item[+].linkId = "encounter-value"
* item[=].item[=].text = "Identifier"
* item[=].item[=].type = #string
* item[=].item[=].required = true
* item[+].linkId = "order"
* item[=].text = "Order"
* item[=].type = #group
* item[=].required = false
* item[=].item[+].linkId = "order-system"
* item[=].item[=].text = "System of the identifier (a URI)"
* item[=].item[=].type = #string
* item[=].item[=].required = true
* item[=].item[+].linkId = "order-value"
* item[=].item[=].text = "Identifier"
* item[=].item[=].type = #string
* item[=].item[=].required = true
* item[+].linkId = "session-started-at"
* item[=].text = "Begin of the session"
* item[=].type = #dateTime
* item[=].required = true
* item[+].linkId = "session-ended-at"
* item[=].text = "End of the session"
* item[=].type = #dateTime
* item[=].required = true
* item[+].linkId = "dominance"
* item[=].text = "Handedness"
* item[=].type = #group
* item[=].required = true
* item[=].item[+].linkId = "handedness"
* item[=].item[=].text = "Handedness"
* item[=].item[=].type = #choice
* item[=].item[=].required = true
* item[=].item[=].answerOption[+].valueCoding = $handedness#left "Left handed"
* item[=].item[=].answerOption[+].valueCoding = $handedness#right "Right handed"
* item[=].item[=].answerOption[+].valueCoding = $handedness#ambidextrous "Ambidextrous"
* item[=].item[+].linkId = "how-known"
* item[=].item[=].text = "How it is known"
* item[=].item[=].type = #choice
* item[=].item[=].required = true
* item[=].item[=].answerOption[+].valueCoding = $dominance-source#stated "Stated"
* item[=].item[=].answerOption[+].valueCoding = $dominance-source#observed "Observed"
* item[=].item[=].answerOption[+].valueCoding = $dominance-source#inventory "Inventory"
* item[=].item[+].linkId = "laterality-quotient"
* item[=].item[=].text = "Laterality quotient, -100 (all left) to +100 (all right)"
* item[=].item[=].type = #decimal
* item[=].item[=].required = false
* item[=].item[+].linkId = "tested-as-dominant"
* item[=].item[=].text = "Hand tested as dominant"
* item[=].item[=].type = #choice
* item[=].item[=].enableWhen[+].question = "handedness"
* item[=].item[=].enableWhen[=].operator = #=
* item[=].item[=].enableWhen[=].answerCoding = $handedness#ambidextrous
* item[=].item[=].required = true
* item[=].item[=].answerOption[+].valueCoding = $hand#left "Left hand"
* item[=].item[=].answerOption[+].valueCoding = $hand#right "Right hand"
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
* item[+].linkId = "kit"
* item[=].text = "Kit"
* item[=].type = #group
* item[=].required = false
* item[=].item[+].linkId = "kit-name"
* item[=].item[=].text = "Name of the kit"
* item[=].item[=].type = #string
* item[=].item[=].required = true
* item[=].item[+].linkId = "kit-serial-number"
* item[=].item[=].text = "Serial or inventory number"
* item[=].item[=].type = #string
* item[=].item[=].required = false
* item[+].linkId = "trial"
* item[=].text = "Attempts, in the order in which they ran"
* item[=].type = #group
* item[=].required = true
* item[=].repeats = true
* item[=].item[+].linkId = "trial-task"
* item[=].item[=].text = "Task"
* item[=].item[=].type = #choice
* item[=].item[=].required = true
* item[=].item[=].answerOption[+].valueCoding = $task#writing "Writing"
* item[=].item[=].answerOption[+].valueCoding = $task#card-turning "Card turning"
* item[=].item[=].answerOption[+].valueCoding = $task#small-common-objects "Picking up small common objects"
* item[=].item[=].answerOption[+].valueCoding = $task#simulated-feeding "Simulated feeding"
* item[=].item[=].answerOption[+].valueCoding = $task#stacking-checkers "Stacking checkers"
* item[=].item[=].answerOption[+].valueCoding = $task#large-light-objects "Moving large light objects"
* item[=].item[=].answerOption[+].valueCoding = $task#large-heavy-objects "Moving large heavy objects"
* item[=].item[+].linkId = "trial-hand"
* item[=].item[=].text = "Hand"
* item[=].item[=].type = #choice
* item[=].item[=].required = true
* item[=].item[=].answerOption[+].valueCoding = $hand#left "Left hand"
* item[=].item[=].answerOption[+].valueCoding = $hand#right "Right hand"
* item[=].item[+].linkId = "trial-outcome"
* item[=].item[=].text = "Outcome"
* item[=].item[=].type = #choice
* item[=].item[=].required = true
* item[=].item[=].answerOption[+].valueCoding = $outcome#completed "Completed"
* item[=].item[=].answerOption[+].valueCoding = $outcome#stopped-at-cap "Stopped at the cap"
* item[=].item[=].answerOption[+].valueCoding = $outcome#unable "Unable"
* item[=].item[=].answerOption[+].valueCoding = $outcome#declined "Declined"
* item[=].item[=].answerOption[+].valueCoding = $outcome#not-given "Not given"
* item[=].item[=].answerOption[+].valueCoding = $outcome#void "Void"
* item[=].item[+].linkId = "trial-seconds"
* item[=].item[=].text = "Seconds, digits as read (for a stopped attempt: the longest time allowed)"
* item[=].item[=].type = #decimal
* item[=].item[=].enableWhen[+].question = "trial-outcome"
* item[=].item[=].enableWhen[=].operator = #=
* item[=].item[=].enableWhen[=].answerCoding = $outcome#completed
* item[=].item[=].enableWhen[+].question = "trial-outcome"
* item[=].item[=].enableWhen[=].operator = #=
* item[=].item[=].enableWhen[=].answerCoding = $outcome#stopped-at-cap
* item[=].item[=].enableBehavior = #any
* item[=].item[=].required = true
* item[=].item[+].linkId = "trial-started-at"
* item[=].item[=].text = "Begin of the attempt"
* item[=].item[=].type = #dateTime
* item[=].item[=].required = false
* item[=].item[+].linkId = "trial-source"
* item[=].item[=].text = "Where the seconds come from"
* item[=].item[=].type = #choice
* item[=].item[=].enableWhen[+].question = "trial-outcome"
* item[=].item[=].enableWhen[=].operator = #=
* item[=].item[=].enableWhen[=].answerCoding = $outcome#completed
* item[=].item[=].enableWhen[+].question = "trial-outcome"
* item[=].item[=].enableWhen[=].operator = #=
* item[=].item[=].enableWhen[=].answerCoding = $outcome#stopped-at-cap
* item[=].item[=].enableBehavior = #any
* item[=].item[=].required = true
* item[=].item[=].answerOption[+].valueCoding = $time-source#timer "Timer"
* item[=].item[=].answerOption[+].valueCoding = $time-source#manual "Manual"
* item[=].item[+].linkId = "trial-counted"
* item[=].item[=].text = "Does this attempt count?"
* item[=].item[=].type = #boolean
* item[=].item[=].required = true
* item[=].item[+].linkId = "trial-departures"
* item[=].item[=].text = "What differed from the standard"
* item[=].item[=].type = #choice
* item[=].item[=].required = false
* item[=].item[=].repeats = true
* item[=].item[=].answerOption[+].valueCoding = $departure#order-changed "Order changed"
* item[=].item[=].answerOption[+].valueCoding = $departure#practice-allowed "Practice allowed"
* item[=].item[=].answerOption[+].valueCoding = $departure#instructions-repeated "Instructions repeated"
* item[=].item[=].answerOption[+].valueCoding = $departure#item-dropped "Item dropped"
* item[=].item[=].answerOption[+].valueCoding = $departure#layout-differed "Layout differed"
* item[=].item[=].answerOption[+].valueCoding = $departure#item-replaced "Item replaced"
* item[=].item[=].answerOption[+].valueCoding = $departure#other-hand-helped "Other hand helped"
* item[=].item[=].answerOption[+].valueCoding = $departure#orthosis-worn "Orthosis worn"
* item[=].item[=].answerOption[+].valueCoding = $departure#position-changed "Position changed"
* item[=].item[=].answerOption[+].valueCoding = $departure#pain-reported "Pain reported"
* item[=].item[=].answerOption[+].valueCoding = $departure#interrupted "Interrupted"
* item[=].item[=].answerOption[+].valueCoding = $departure#timer-started-late "Timer started late"
* item[=].item[+].linkId = "trial-reason"
* item[=].item[=].text = "Why there is no usable time (must be answered for an attempt that was not given or is void)"
* item[=].item[=].type = #string
* item[=].item[=].enableWhen[+].question = "trial-outcome"
* item[=].item[=].enableWhen[=].operator = #!=
* item[=].item[=].enableWhen[=].answerCoding = $outcome#completed
* item[=].item[=].enableWhen[+].question = "trial-outcome"
* item[=].item[=].enableWhen[=].operator = #!=
* item[=].item[=].enableWhen[=].answerCoding = $outcome#stopped-at-cap
* item[=].item[=].enableBehavior = #all
* item[=].item[=].required = false
* item[=].item[+].linkId = "trial-note"
* item[=].item[=].text = "Remark"
* item[=].item[=].type = #string
* item[=].item[=].required = false
* item[+].linkId = "comment"
* item[=].text = "Remarks on the session as a whole"
* item[=].type = #text
* item[=].required = false
