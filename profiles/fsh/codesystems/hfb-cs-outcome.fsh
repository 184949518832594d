CodeSystem: HfbOutcomeCS
Id: hfb-cs-outcome
Title: "Trial outcomes"
Description: "How one trial ended. This is a local code system of HandFhirBridge: no published code system was found that holds these meanings."
* ^caseSensitive = true
* ^experimental = false
* #completed "Completed" "Finished; the seconds are the result."
* #stopped-at-cap "Stopped at the cap" "The time is a bound (longer than the cap), never a plain value."
* #unable "Unable" "Tried, or judged impossible by the therapist."
* #declined "Declined" "The patient declined."
* #not-given "Not given" "Left out by the therapist, with a reason."
* #void "Void" "Given but not usable, with a reason."
