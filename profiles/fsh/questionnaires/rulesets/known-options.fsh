RuleSet: KnownOptions
* answerOption[+].valueCoding = $dominance-source#stated "Stated"
* answerOption[+].valueCoding = $dominance-source#observed "Observed"
* answerOption[+].valueCoding = $dominance-source#inventory "Inventory"
