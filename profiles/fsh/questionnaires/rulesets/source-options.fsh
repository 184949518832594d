RuleSet: SourceOptions
* answerOption[+].valueCoding = $time-source#timer "Timer"
* answerOption[+].valueCoding = $time-source#manual "Manual"
