CodeSystem: HfbPrecautionCS
Id: hfb-cs-precaution
Title: "Precautions"
Description: "What is asked before a test because a task could harm. This is a local code system of HandFhirBridge: no published code system was found that holds these meanings."
* ^caseSensitive = true
* ^experimental = false
* #lifting-restriction "Lifting restriction" "Is there a limit on lifting or gripping with either hand?"
* #recent-tendon-repair "Recent tendon repair" "Has a tendon of the hand or forearm been repaired recently?"
* #unhealed-fracture "Unhealed fracture" "Is there a fracture that has not healed, or hardware that is not yet stable?"
* #open-wound "Open wound" "Is there an open wound, infection or a fresh graft on either hand?"
* #recent-nerve-or-joint-surgery "Recent nerve or joint surgery" "Has a nerve or joint of the arm or hand been operated on recently?"
* #pain-limits-use "Pain limits use of the hand" "Is there pain that limits use of either hand today?"
