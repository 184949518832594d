CodeSystem: HfbHandRoleCS
Id: hfb-cs-hand-role
Title: "Hand role"
Description: "Part a hand plays in a session. This is a local code system of HandFhirBridge: no published code system was found that holds these meanings."
* ^caseSensitive = true
* ^experimental = false
* #dominant "Dominant hand"
* #non-dominant "Non-dominant hand" "Tested first in every task."
