Extension: HfbOutcome
Id: hfb-ext-outcome
Title: "Outcome of the trial"
Description: "How the attempt ended, exactly; status and data absent reason say it only coarsely."
* ^context[0].type = #element
* ^context[0].expression = "Observation"
* value[x] only code
* value[x] 1..1
* value[x] from HfbOutcomeVS (required)
