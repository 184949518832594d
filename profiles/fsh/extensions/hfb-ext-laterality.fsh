Extension: HfbLaterality
Id: hfb-ext-laterality
Title: "Laterality"
Description: "Side of a body site that is coded without one."
* ^context[0].type = #element
* ^context[0].expression = "Observation.bodySite"
* value[x] only code
* value[x] 1..1
* value[x] from HfbHandVS (required)
