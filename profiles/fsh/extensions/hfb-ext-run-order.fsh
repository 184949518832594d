Extension: HfbRunOrder
Id: hfb-ext-run-order
Title: "Place in the order run"
Description: "1-based place of this attempt in the order in which all attempts of the session ran."
* ^context[0].type = #element
* ^context[0].expression = "Observation"
* value[x] only positiveInt
* value[x] 1..1
