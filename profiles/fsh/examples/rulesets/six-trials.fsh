RuleSet: SixTrials
* derivedFrom[+] = Reference(Observation/example-card-turning-left)
* derivedFrom[+] = Reference(Observation/example-small-common-objects-left)
* derivedFrom[+] = Reference(Observation/example-simulated-feeding-left)
* derivedFrom[+] = Reference(Observation/example-stacking-checkers-left)
* derivedFrom[+] = Reference(Observation/example-large-light-objects-left)
* derivedFrom[+] = Reference(Observation/example-large-heavy-objects-left)
