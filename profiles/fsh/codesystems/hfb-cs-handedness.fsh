CodeSystem: HfbHandednessCS
Id: hfb-cs-handedness
Title: "Handedness"
Description: "Handedness, for sites without a SNOMED CT licence. This is a local code system of HandFhirBridge: no published code system was found that holds these meanings."
* ^caseSensitive = true
* ^experimental = false
* #left "Left handed"
* #right "Right handed"
* #ambidextrous "Ambidextrous"
