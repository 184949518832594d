ValueSet: HfbEvidenceVS
Id: hfb-vs-evidence
Title: "Evidence for a norm"
Description: "Every grade."
* ^experimental = false
* $evidence#site-double-entry "Entered twice by the site"
* $evidence#one-reprint-read "Read in one reprint"
* $evidence#abstract-read "Read in the abstract"
* $evidence#recalled "Recalled from memory"
