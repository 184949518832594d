ValueSet: HfbHandSiteVS
Id: hfb-vs-hand-site
Title: "Hand as a body site"
Description: "Left or right hand; 85562004 stands with the laterality extension where the site has no SNOMED CT licence for the sided concepts."
* ^experimental = false
* ^copyright = "Contains SNOMED CT concept identifiers. SNOMED CT is copyright of SNOMED International; use in production needs an affiliate licence in the country of use."
* $sct#85151006 "Structure of left hand"
* $sct#78791008 "Structure of right hand"
* $sct#85562004 "Hand structure"
