ValueSet: HfbPrecautionVS
Id: hfb-vs-precaution
Title: "Precautions"
Description: "Every precaution."
* ^experimental = false
* $precaution#lifting-restriction "Lifting restriction"
* $precaution#recent-tendon-repair "Recent tendon repair"
* $precaution#unhealed-fracture "Unhealed fracture"
* $precaution#open-wound "Open wound"
* $precaution#recent-nerve-or-joint-surgery "Recent nerve or joint surgery"
* $precaution#pain-limits-use "Pain limits use of the hand"
