RuleSet: AnswerOptions
* answerOption[+].valueCoding = $setup#yes "Yes"
* answerOption[+].valueCoding = $setup#no "No"
* answerOption[+].valueCoding = $setup#not-known "Not known"
