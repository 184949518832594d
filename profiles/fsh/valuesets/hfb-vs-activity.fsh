ValueSet: HfbActivityVS
Id: hfb-vs-activity
Title: "What was done to the record"
Description: "First delivery, correction, or withdrawal."
* ^experimental = false
* $operation#CREATE "create"
* $operation#UPDATE "revise"
* $operation#NULLIFY "nullify"
