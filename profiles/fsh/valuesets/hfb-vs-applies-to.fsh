ValueSet: HfbAppliesToVS
Id: hfb-vs-applies-to
Title: "Who a norm is for"
Description: "Sex and hand role of a norm group."
* ^experimental = false
* ^copyright = "Contains SNOMED CT concept identifiers. SNOMED CT is copyright of SNOMED International; use in production needs an affiliate licence in the country of use."
* $gender#female "Female"
* $gender#male "Male"
* $sct#248152002 "Female"
* $sct#248153007 "Male"
* $hand-role#dominant "Dominant hand"
* $hand-role#non-dominant "Non-dominant hand"
