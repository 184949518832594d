// How the table was laid and what was asked before: the same questions in both questionnaires.
RuleSet: SetupItems
* item[+].linkId = "precaution"
* item[=].text = "Precautions asked before the test"
* item[=].type = #group
* item[=].required = false
* item[=].repeats = true
* item[=].item[+].linkId = "precaution-asked"
* item[=].item[=].text = "Precaution"
* item[=].item[=].type = #choice
* item[=].item[=].required = true
* item[=].item[=] insert PrecautionOptions
* item[=].item[+].linkId = "precaution-answer"
* item[=].item[=].text = "Does it apply?"
* item[=].item[=].type = #choice
* item[=].item[=].required = true
* item[=].item[=] insert AnswerOptions
* item[=].item[+].linkId = "precaution-rules-out"
* item[=].item[=].text = "Tasks the therapist therefore leaves out"
* item[=].item[=].type = #choice
* item[=].item[=].enableWhen[+].question = "precaution-answer"
* item[=].item[=].enableWhen[=].operator = #!=
* item[=].item[=].enableWhen[=].answerCoding = $setup#no
* item[=].item[=].required = false
* item[=].item[=].repeats = true
* item[=].item[=] insert TaskOptions
* item[=].item[+].linkId = "precaution-hands"
* item[=].item[=].text = "Hands it concerns (none chosen: both)"
* item[=].item[=].type = #choice
* item[=].item[=].required = false
* item[=].item[=].repeats = true
* item[=].item[=] insert HandOptions
* item[=].item[+].linkId = "precaution-note"
* item[=].item[=].text = "Remark"
* item[=].item[=].type = #string
* item[=].item[=].required = false
* item[+].linkId = "glasses"
* item[=].text = "Glasses for near work"
* item[=].type = #choice
* item[=].required = true
* item[=] insert GlassesOptions
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
* item[=].item[=] insert MaterialOptions
* item[=].item[+].linkId = "item-replaced-by"
* item[=].item[=].text = "What lay there instead"
* item[=].item[=].type = #string
* item[=].item[=].required = true
