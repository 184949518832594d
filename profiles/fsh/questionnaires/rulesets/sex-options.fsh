RuleSet: SexOptions
* answerOption[+].valueCoding = $gender#female "Female"
* answerOption[+].valueCoding = $gender#male "Male"
* answerOption[+].valueCoding = $gender#unknown "Unknown: show both norms, judge none"
