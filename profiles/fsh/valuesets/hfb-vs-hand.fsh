ValueSet: HfbHandVS
Id: hfb-vs-hand
Title: "Hands"
Description: "Left and right."
* ^experimental = false
* $hand#left "Left hand"
* $hand#right "Right hand"
