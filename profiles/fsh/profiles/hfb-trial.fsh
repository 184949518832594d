Profile: HfbTrial
Parent: HfbTimedAttempt
Id: hfb-trial
Title: "Trial"
Description: "The attempt at one task with one hand that counts, with the norm it is compared with."
* obeys hfb-7 and hfb-8 and hfb-9 and hfb-12
* identifier.system = "https://handfhirbridge.example/identifier/trial"
* extension contains HfbNotJudged named notJudged 0..1 MS
* code from HfbTrialCodeVS (required)
* referenceRange 0..2 MS
* referenceRange obeys hfb-13 and hfb-24
* referenceRange.extension contains HfbNormSource named normSource 1..1
* referenceRange.low 1..1
* referenceRange.low = $ucum#s
* referenceRange.low.value 1..1
* referenceRange.high 1..1
* referenceRange.high = $ucum#s
* referenceRange.high.value 1..1
* referenceRange.type 1..1
* referenceRange.type = $range-meaning#normal
* referenceRange.appliesTo 2..2
* referenceRange.appliesTo from HfbAppliesToVS (required)
* referenceRange.age 1..1
* referenceRange.age.low 1..1
* referenceRange.age.low = $ucum#a
* referenceRange.age.high 1..1
* referenceRange.age.high = $ucum#a
* referenceRange.text 1..1
* component contains zScore 0..1 and percentOfNorm 0..1
* component[zScore].code = $component#z-score
* component[zScore].value[x] only Quantity
* component[zScore].value[x] 1..1
* component[zScore].value[x] = $ucum#{score}
* component[percentOfNorm].code = $component#percent-of-norm
* component[percentOfNorm].value[x] only Quantity
* component[percentOfNorm].value[x] 1..1
* component[percentOfNorm].value[x] = $ucum#%
