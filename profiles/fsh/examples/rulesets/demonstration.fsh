RuleSet: Demonstration
* referenceRange[0].extension[normSource].extension[evidence].valueCode = #recalled
* referenceRange[0].extension[normSource].extension[demonstrationOnly].valueBoolean = true
