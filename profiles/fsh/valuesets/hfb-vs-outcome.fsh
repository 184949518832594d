ValueSet: HfbOutcomeVS
Id: hfb-vs-outcome
Title: "Trial outcomes"
Description: "Every outcome."
* ^experimental = false
* $outcome#completed "Completed"
* $outcome#stopped-at-cap "Stopped at the cap"
* $outcome#unable "Unable"
* $outcome#declined "Declined"
* $outcome#not-given "Not given"
* $outcome#void "Void"
