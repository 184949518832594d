CodeSystem: HfbDominanceSourceCS
Id: hfb-cs-dominance-source
Title: "Sources of handedness"
Description: "How handedness became known. This is a local code system of HandFhirBridge: no published code system was found that holds these meanings."
* ^caseSensitive = true
* ^experimental = false
* #stated "Stated" "The patient said so."
* #observed "Observed" "The therapist saw which hand writes."
* #inventory "Inventory" "A laterality inventory was scored."
