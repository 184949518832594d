RuleSet: StoppedAtCap
* extension[outcome].valueCode = #stopped-at-cap
* extension[timeSource].valueCode = #manual
* valueQuantity.value = 120
* valueQuantity.unit = "s"
* valueQuantity.comparator = #>
* interpretation = $interpretation#> "Off scale high"
