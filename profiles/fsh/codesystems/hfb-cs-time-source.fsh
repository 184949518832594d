CodeSystem: HfbTimeSourceCS
Id: hfb-cs-time-source
Title: "Sources of a time"
Description: "Where the seconds of a trial come from. This is a local code system of HandFhirBridge: no published code system was found that holds these meanings."
* ^caseSensitive = true
* ^experimental = false
* #timer "Timer" "Taken over from a timer by software."
* #manual "Manual" "Read from a stopwatch and typed."
