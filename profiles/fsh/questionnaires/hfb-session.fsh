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
* item[=].item[=] insert RoleOptions
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
* item[=].item[=] insert HandednessOptions
* item[=].item[+].linkId = "how-known"
* item[=].item[=].text = "How it is known"
* item[=].item[=].type = #choice
* item[=].item[=].required = true
* item[=].item[=] insert KnownOptions
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
* item[=].item[=] insert HandOptions
* item[+].linkId = "sex-for-norm"
* item[=].text = "Sex for the norm (which norm applies; not gender identity)"
* item[=].type = #choice
* item[=].required = true
* item[=] insert SexOptions
* insert SetupItems
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
* item[=].item[=] insert TaskOptions
* item[=].item[+].linkId = "trial-hand"
* item[=].item[=].text = "Hand"
* item[=].item[=].type = #choice
* item[=].item[=].required = true
* item[=].item[=] insert HandOptions
* item[=].item[+].linkId = "trial-outcome"
* item[=].item[=].text = "Outcome"
* item[=].item[=].type = #choice
* item[=].item[=].required = true
* item[=].item[=] insert OutcomeOptions
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
* item[=].item[=] insert SourceOptions
* item[=].item[+].linkId = "trial-counted"
* item[=].item[=].text = "Does this attempt count?"
* item[=].item[=].type = #boolean
* item[=].item[=].required = true
* item[=].item[+].linkId = "trial-departures"
* item[=].item[=].text = "What differed from the standard"
* item[=].item[=].type = #choice
* item[=].item[=].required = false
* item[=].item[=].repeats = true
* item[=].item[=] insert DepartureOptions
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
* item[+].linkId = "conclusion"
* item[=].text = "Conclusion, where the performer signs one"
* item[=].type = #group
* item[=].required = false
* item[=].item[+].linkId = "conclusion-text"
* item[=].item[=].text = "Conclusion in the performer's own words"
* item[=].item[=].type = #text
* item[=].item[=].required = true
* item[=].item[+].linkId = "conclusion-signed-at"
* item[=].item[=].text = "When the performer signed it"
* item[=].item[=].type = #dateTime
* item[=].item[=].required = true
