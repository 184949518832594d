ValueSet: HfbHandednessVS
Id: hfb-vs-handedness
Title: "Handedness"
Description: "SNOMED CT, or our own codes where the site has no licence."
* ^experimental = false
* ^copyright = "Contains SNOMED CT concept identifiers. SNOMED CT is copyright of SNOMED International; use in production needs an affiliate licence in the country of use."
* $sct#46669005 "Right handed"
* $sct#87683000 "Left handed"
* $sct#23088002 "Ambidextrous"
* $handedness#left "Left handed"
* $handedness#right "Right handed"
* $handedness#ambidextrous "Ambidextrous"
