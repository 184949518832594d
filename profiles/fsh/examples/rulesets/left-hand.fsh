RuleSet: LeftHand
* bodySite = $sct#85151006
