CodeSystem: HfbEvidenceCS
Id: hfb-cs-evidence
Title: "Evidence for a norm"
Description: "How a norm was obtained, from strongest to weakest. This is a local code system of HandFhirBridge: no published code system was found that holds these meanings."
* ^caseSensitive = true
* ^experimental = false
* #site-double-entry "Entered twice by the site" "Typed from the source by two people, agreeing cell by cell."
* #one-reprint-read "Read in one reprint"
* #abstract-read "Read in the abstract"
* #recalled "Recalled from memory" "No copy was read: for demonstration only."
