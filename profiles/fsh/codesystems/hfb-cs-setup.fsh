CodeSystem: HfbSetupCS
Id: hfb-cs-setup
Title: "Set-up answers"
Description: "Answers in the set-up questionnaire. This is a local code system of HandFhirBridge: no published code system was found that holds these meanings."
* ^caseSensitive = true
* ^experimental = false
* #worn "Worn" "Glasses needed for near work were worn."
* #not-needed "Not needed" "No glasses are needed for near work."
* #needed-not-worn "Needed but not worn" "Departs from the standard."
* #yes "Yes" "The precaution applies."
* #no "No" "The precaution does not apply."
* #not-known "Not known" "Asked, but nobody present could tell."
