ValueSet: HfbDominanceCodeVS
Id: hfb-vs-dominance-code
Title: "Codes of the handedness question"
Description: "SNOMED CT, or our own code where the site has no licence."
* ^experimental = false
* ^copyright = "Contains SNOMED CT concept identifiers. SNOMED CT is copyright of SNOMED International; use in production needs an affiliate licence in the country of use."
* $sct#57427004 "Handedness"
* $measure#handedness "Handedness"
