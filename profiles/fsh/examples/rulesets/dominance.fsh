RuleSet: Dominance
* insert ObservationBase(dominance, north-clinic/S-1, [[Handedness]])
* code = $sct#57427004
* method = $dominance-source#stated
