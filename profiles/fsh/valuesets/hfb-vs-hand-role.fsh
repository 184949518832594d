ValueSet: HfbHandRoleVS
Id: hfb-vs-hand-role
Title: "Hand roles"
Description: "Dominant and non-dominant."
* ^experimental = false
* $hand-role#dominant "Dominant hand"
* $hand-role#non-dominant "Non-dominant hand"
