RuleSet: TaskOptions
* answerOption[+].valueCoding = $task#writing "Writing"
* answerOption[+].valueCoding = $task#card-turning "Card turning"
* answerOption[+].valueCoding = $task#small-common-objects "Small common objects"
* answerOption[+].valueCoding = $task#simulated-feeding "Simulated feeding"
* answerOption[+].valueCoding = $task#stacking-checkers "Stacking checkers"
* answerOption[+].valueCoding = $task#large-light-objects "Large light objects"
* answerOption[+].valueCoding = $task#large-heavy-objects "Large heavy objects"
