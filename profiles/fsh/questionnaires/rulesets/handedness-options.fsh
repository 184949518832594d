RuleSet: HandednessOptions
* answerOption[+].valueCoding = $handedness#left "Left handed"
* answerOption[+].valueCoding = $handedness#right "Right handed"
* answerOption[+].valueCoding = $handedness#ambidextrous "Ambidextrous"
