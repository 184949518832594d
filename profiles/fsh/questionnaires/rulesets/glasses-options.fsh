RuleSet: GlassesOptions
* answerOption[+].valueCoding = $setup#worn "Worn"
* answerOption[+].valueCoding = $setup#not-needed "Not needed"
* answerOption[+].valueCoding = $setup#needed-not-worn "Needed but not worn"
