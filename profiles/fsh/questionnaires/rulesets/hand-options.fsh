RuleSet: HandOptions
* answerOption[+].valueCoding = $hand#left "Left hand"
* answerOption[+].valueCoding = $hand#right "Right hand"
