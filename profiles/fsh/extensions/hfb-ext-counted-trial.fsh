Extension: HfbCountedTrial
Id: hfb-ext-counted-trial
Title: "The trial that counts"
Description: "The attempt of the same task and hand that counts in place of this one."
* ^context[0].type = #element
* ^context[0].expression = "Observation"
* value[x] only Reference(Observation)
* value[x] 1..1
