ValueSet: HfbInterpretationVS
Id: hfb-vs-interpretation
Title: "Interpretations"
Description: "Within 2 SD of the norm mean, slower than that, or a bound."
* ^experimental = false
* $interpretation#N "Normal"
* $interpretation#H "High"
* $interpretation#> "Off scale high"
