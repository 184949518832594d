Profile: HfbDominance
Parent: HfbObservation
Id: hfb-dominance
Title: "Handedness"
Description: "Handedness as established at the table, and what it was concluded from."
* obeys hfb-17 and hfb-22
* identifier.system = "https://handfhirbridge.example/identifier/dominance"
* code from HfbDominanceCodeVS (required)
* value[x] 1..1 MS
* value[x] only CodeableConcept
* value[x] from HfbHandednessVS (required)
* value[x].coding 1..1
* dataAbsentReason 0..0
* interpretation 0..0
* bodySite 0..0
* method 1..1 MS
* method from HfbDominanceSourceVS (required)
* referenceRange 0..0
* hasMember 0..0
* component MS
* component ^slicing.discriminator.type = #pattern
* component ^slicing.discriminator.path = "code"
* component ^slicing.rules = #open
* component.code from HfbComponentVS (required)
* component contains lateralityQuotient 0..1 and testedAsDominant 0..1
* component[lateralityQuotient].code = $component#laterality-quotient
* component[lateralityQuotient].value[x] only Quantity
* component[lateralityQuotient].value[x] 1..1
* component[lateralityQuotient].value[x] = $ucum#{score}
* component[testedAsDominant].code = $component#tested-as-dominant
* component[testedAsDominant].value[x] only CodeableConcept
* component[testedAsDominant].value[x] 1..1
* component[testedAsDominant].value[x] from HfbHandVS (required)
