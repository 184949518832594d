RuleSet: Judged(code, z, percent)
* interpretation = $interpretation#{code}
* component[zScore].valueQuantity.value = {z}
* component[zScore].valueQuantity.unit = "z"
* component[percentOfNorm].valueQuantity.value = {percent}
* component[percentOfNorm].valueQuantity.unit = "%"
