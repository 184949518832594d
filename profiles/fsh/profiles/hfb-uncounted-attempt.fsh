Profile: HfbUncountedAttempt
Parent: HfbTimedAttempt
Id: hfb-uncounted-attempt
Title: "Attempt that does not count"
Description: "An attempt that was repeated at the same sitting. It has a code of its own, is compared with no norm, and is never a result of the report."
* extension contains HfbCountedTrial named countedTrial 1..1 MS
* identifier.system = "https://handfhirbridge.example/identifier/attempt"
* code from HfbUncountedCodeVS (required)
* referenceRange 0..0
