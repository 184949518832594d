ValueSet: HfbPrecautionAnswerVS
Id: hfb-vs-precaution-answer
Title: "Answers to a precaution"
Description: "Yes, no or not known."
* ^experimental = false
* $setup#yes "Yes"
* $setup#no "No"
* $setup#not-known "Not known"
