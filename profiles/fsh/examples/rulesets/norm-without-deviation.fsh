// The same norm as in Norm, with the standard deviation left out of its source.
RuleSet: NormWithoutDeviation(index, sex, mean, sd, low, high)
* referenceRange[{index}].extension[normSource].extension[normSet].valueString = "invented"
* referenceRange[{index}].extension[normSource].extension[version].valueString = "1"
* referenceRange[{index}].extension[normSource].extension[source].valueString = "Invented for this example"
* referenceRange[{index}].extension[normSource].extension[evidence].valueCode = #site-double-entry
* referenceRange[{index}].extension[normSource].extension[demonstrationOnly].valueBoolean = false
* referenceRange[{index}].extension[normSource].extension[mean].valueDecimal = {mean}
* referenceRange[{index}].low.value = {low}
* referenceRange[{index}].low.unit = "s"
* referenceRange[{index}].high.value = {high}
* referenceRange[{index}].high.unit = "s"
* referenceRange[{index}].type = $range-meaning#normal
* referenceRange[{index}].appliesTo[0] = $gender#{sex}
* referenceRange[{index}].appliesTo[1] = $hand-role#non-dominant
* referenceRange[{index}].age.low.value = 20
* referenceRange[{index}].age.low.unit = "a"
* referenceRange[{index}].age.high.value = 59
* referenceRange[{index}].age.high.unit = "a"
* referenceRange[{index}].text = "Mean {mean} s, SD {sd} s ({sex}, non-dominant hand, 20 to 59 years; invented, version 1; entered twice by the site)"
