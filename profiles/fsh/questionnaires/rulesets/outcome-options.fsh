RuleSet: OutcomeOptions
* answerOption[+].valueCoding = $outcome#completed "Completed"
* answerOption[+].valueCoding = $outcome#stopped-at-cap "Stopped at the cap"
* answerOption[+].valueCoding = $outcome#unable "Unable"
* answerOption[+].valueCoding = $outcome#declined "Declined"
* answerOption[+].valueCoding = $outcome#not-given "Not given"
* answerOption[+].valueCoding = $outcome#void "Void"
