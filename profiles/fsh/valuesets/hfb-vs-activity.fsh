ValueSet: HfbActivityVS
Id: hfb-vs-activity
Title: "What was done to the record"
Description: "First delivery, or correction."
* ^experimental = false
* $operation#CREATE "create"
* $operation#UPDATE "revise"
