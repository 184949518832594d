RuleSet: PrecautionOptions
* answerOption[+].valueCoding = $precaution#lifting-restriction "Lifting restriction"
* answerOption[+].valueCoding = $precaution#recent-tendon-repair "Recent tendon repair"
* answerOption[+].valueCoding = $precaution#unhealed-fracture "Unhealed fracture"
* answerOption[+].valueCoding = $precaution#open-wound "Open wound"
* answerOption[+].valueCoding = $precaution#recent-nerve-or-joint-surgery "Recent nerve or joint surgery"
* answerOption[+].valueCoding = $precaution#pain-limits-use "Pain limits use of the hand"
