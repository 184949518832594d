ValueSet: HfbComponentVS
Id: hfb-vs-component
Title: "Component codes"
Description: "What a component says."
* ^experimental = false
* $component#hand-role "Hand role"
* $component#z-score "z-score"
* $component#percent-of-norm "Percent of norm mean"
* $component#departure "Departure"
* $component#laterality-quotient "Laterality quotient"
* $component#tested-as-dominant "Hand tested as dominant"
