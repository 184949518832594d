ValueSet: HfbDominanceSourceVS
Id: hfb-vs-dominance-source
Title: "Sources of handedness"
Description: "Stated, observed or by inventory."
* ^experimental = false
* $dominance-source#stated "Stated"
* $dominance-source#observed "Observed"
* $dominance-source#inventory "Inventory"
