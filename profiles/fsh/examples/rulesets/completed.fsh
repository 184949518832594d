RuleSet: Completed(seconds)
* extension[outcome].valueCode = #completed
* extension[timeSource].valueCode = #timer
* valueQuantity.value = {seconds}
* valueQuantity.unit = "s"
