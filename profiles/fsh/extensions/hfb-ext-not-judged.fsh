Extension: HfbNotJudged
Id: hfb-ext-not-judged
Title: "Why there is no score"
Description: "Why a counted trial carries no score: an absent reference range alone does not say whether the age is outside every norm or the task has none."
* ^context[0].type = #element
* ^context[0].expression = "Observation"
* value[x] only code
* value[x] 1..1
* value[x] from HfbNotJudgedVS (required)
