CodeSystem: HfbHandCS
Id: hfb-cs-hand
Title: "Hand"
Description: "The hand itself, whatever its role. This is a local code system of HandFhirBridge: no published code system was found that holds these meanings."
* ^caseSensitive = true
* ^experimental = false
* #left "Left hand"
* #right "Right hand"
