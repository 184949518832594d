RuleSet: FunctionCategories
* category[exam] = $category#exam
* category[functionalStatus] = $us-core-category#functional-status
* category[icf] = $icf#d440
