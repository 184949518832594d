Instance: example-uncounted-attempt
InstanceOf: HfbUncountedAttempt
Usage: #example
Title: "Attempt that was repeated"
* insert ObservationBase(attempt, north-clinic/S-1/card-turning/left/1, [[Card turning, left hand, not counted]])
* insert LeftHandAttempt
* code = $measure#card-turning-left-uncounted "Card turning, left hand, attempt not counted"
* status = #cancelled
* extension[outcome].valueCode = #void
* extension[countedTrial].valueReference = Reference(Observation/example-trial-completed)
* dataAbsentReason = $absent#error
* dataAbsentReason.text = "Stopwatch dropped"
