CodeSystem: HfbPrecautionCS
Id: hfb-cs-precaution
Title: "Precautions"
Description: "What is asked before a test because a task could harm. This is a local code system of HandFhirBridge: no published code system was found that holds these meanings."
* ^caseSensitive = true
* ^experimental = false
* #lifting-restriction "Lifting restriction" "A weight limit set by the treating clinician is in force."
* #recent-tendon-repair "Recent tendon repair"
* #unhealed-fracture "Unhealed fracture"
* #open-wound "Open wound"
* #recent-nerve-or-joint-surgery "Recent nerve or joint surgery"
* #pain-limits-use "Pain limits use of the hand"
