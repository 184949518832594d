Profile: HfbTimedAttempt
Parent: HfbObservation
Id: hfb-timed-attempt
Title: "Timed attempt"
Description: "One task given once with one hand: a time in seconds, a bound, or the reason why there is neither."
* ^abstract = true
* obeys hfb-1 and hfb-2 and hfb-3 and hfb-4 and hfb-5 and hfb-6 and hfb-10 and hfb-11 and hfb-23
* extension contains
    HfbRunOrder named runOrder 1..1 MS and
    HfbTimeSource named timeSource 0..1 MS and
    HfbOutcome named outcome 1..1 MS
* category[exam] 1..1
* category[functionalStatus] 1..1
* category[icf] 1..1
* value[x] only Quantity
* value[x] MS
* value[x] = $ucum#s
* value[x].value 1..1
* value[x].unit 1..1
* value[x].comparator = #>
* dataAbsentReason MS
* dataAbsentReason from HfbAbsentReasonVS (required)
* interpretation 0..1 MS
* interpretation from HfbInterpretationVS (required)
* bodySite 1..1 MS
* bodySite from HfbHandSiteVS (required)
* bodySite.extension contains HfbLaterality named laterality 0..1
* bodySite.coding 1..1
* note MS
* derivedFrom 1..1 MS
* derivedFrom only Reference(QuestionnaireResponse)
* hasMember 0..0
* component MS
* component ^slicing.discriminator.type = #pattern
* component ^slicing.discriminator.path = "code"
* component ^slicing.rules = #open
* component.code from HfbComponentVS (required)
* component contains handRole 1..1 and departure 0..*
* component[handRole].code = $component#hand-role
* component[handRole].value[x] only CodeableConcept
* component[handRole].value[x] 1..1
* component[handRole].value[x] from HfbHandRoleVS (required)
* component[departure].code = $component#departure
* component[departure].value[x] only CodeableConcept
* component[departure].value[x] 1..1
* component[departure].value[x] from HfbDepartureVS (required)
