RuleSet: ReportNorm(evidence, demonstration)
* extension[normSource].extension[normSet].valueString = "invented"
* extension[normSource].extension[version].valueString = "1"
* extension[normSource].extension[source].valueString = "Invented for this example"
* extension[normSource].extension[evidence].valueCode = #{evidence}
* extension[normSource].extension[demonstrationOnly].valueBoolean = {demonstration}
