Extension: HfbTimeSource
Id: hfb-ext-time-source
Title: "Source of the time"
Description: "Where the seconds come from."
* ^context[0].type = #element
* ^context[0].expression = "Observation"
* value[x] only code
* value[x] 1..1
* value[x] from HfbTimeSourceVS (required)
